"""Lines of yeast to the model."""

from dataclasses import replace
from datetime import date

from gristbook.model.brings import NOTHING
from gristbook.model.moment import BeforeTheBoil
from gristbook.model.yeast import Yeast
from gristbook.pantry import records
from gristbook.reading import fields as f
from gristbook.reading.lines import Line
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import on_line
from gristbook.text.brew import Brew
from gristbook.text.values import Desk, from_pantry, in_days, said
from gristbook.text.yeast_use import amount_of, called, grown_first, moment_of

NOT_RECKONED = "the acid that bacteria make is not reckoned, nor what it does to the taste"


def read_yeast(node: Node, written: str, brew: Brew, desk: Desk) -> Yeast:
    """A line under `yeast`; a name that fits two families is a warning, and takes the middle and range of both.

    ``written`` is the recipe's own date, from which a pack's age is counted; nothing here asks the clock.
    """
    line = grown_first(desk.line(node, "yeast"))
    match = desk.pantry.yeasts.look_up(line.name.value)
    if not match.found:
        what = f'unknown yeast "{line.name.value}"'
        raise desk.unknown(line, [match], what, "yeast", "a family of the pantry")
    if len(match.found) > 1:
        what = f'"{line.name.value}" may be several: the middle and the range of all are taken'
        line.warning(what, match.names, at=line.name)
    stated = line.quantity("attenuation")
    form = line.get("form")
    in_grams = line.amount is not None and line.amount.base == "kg"
    dried = form.word.startswith("dr") if form else in_grams or line.get("each") is not None
    amount, age, starter = amount_of(line, dried, brew), _age(line, written), line.quantity("starter")
    moment = moment_of(line, brew)
    timed = line.get("later") or line.get("soured")
    unread = (timed and moment is None, line.get("starter") and starter is None)
    dated = line.get("made") if written else None
    if ((dated or line.get("age")) and age is None) or any(unread):
        raise Unreadable
    if (line.amount and amount is None) or (line.get("attenuation") and stated is None):
        raise Unreadable
    bacteria = any("bacteria" in record.species for record in match.found) or isinstance(moment, BeforeTheBoil)
    if bacteria:
        line.warning(NOT_RECKONED, "a reading of its pH, and a taste", at=line.name)
    return Yeast(
        name=match.found[0].name if len(match.found) == 1 else line.name.value,
        families=tuple(record.name for record in match.found),
        amount=amount,
        dried=dried,
        age=age,
        attenuation=said(stated, "attenuation of the yeast", usual="attenuation")
        if stated
        else _attenuation(match.found),
        usual_attenuation=_usual(match.found),
        diastatic=any(record.diastatic != "no" for record in match.found),
        kind=_kind(match.found),
        coolest_c=min(record.temperature.low for record in match.found),
        warmest_c=max(record.temperature.high for record in match.found),
        tolerance_abv=100 * min(record.alcohol_tolerance.typical for record in match.found),
        place=line.place,
        brings=on_line(line, NOTHING, desk),
        pitch_rate=_pitch_rate(line, match.found),
        called=called(line),
        starter=said(starter, "starter of the yeast") if starter else None,
        moment=moment,
        bacteria=bacteria,
    )


def _age(line: Line, written: str) -> Value | None:
    """Days from the making of a pack to the recipe's date, or as the line says them."""
    if old := line.quantity("age"):
        return in_days(old, "age of the yeast")
    text = line.get("made")
    if text is None:
        return None
    try:
        made = date.fromisoformat(text.value)
    except ValueError:
        line.error(f'"{text.value}" is not a date', f.DATE.words, at=text)
        return None
    if not written:
        line.warning("the recipe has no date, so the age of the yeast is not reckoned", "date: 2026-02-01", at=text)
        return None
    days = (date.fromisoformat(written) - made).days
    if days < 0:
        line.error(f"the yeast was made after the recipe's date, {written}", at=text)
        return None
    return given(
        float(days), "d", "age of the yeast", words=f"from {text.value} to {written}", by=By.AUTHOR, place=text.place
    )


def _pitch_rate(line: Line, found: tuple[records.Yeast, ...]) -> Value | None:
    """What the line says, else the most that the families ask for where all of them have a rate of their own."""
    label, unit = "pitch rate", "10⁶ cells/(mL·°P)"
    if stated := line.quantity("pitch rate"):
        return said(stated, label, unit=unit)
    own = [record.pitch_rate for record in found if record.pitch_rate is not None]
    most = max(own, key=lambda rate: rate.typical, default=None)
    if most is None or len(own) < len(found):
        return None
    certain = replace(most, low=most.typical, high=most.typical)  # it is decided, and not found out
    return from_pantry(certain, label, unit=unit)


def _kind(found: tuple[records.Yeast, ...]) -> str:
    kinds = {record.kind for record in found}
    return kinds.pop() if len(kinds) == 1 else "ale"


def _usual(found: tuple[records.Yeast, ...]) -> tuple[float, float]:
    return min(record.attenuation.low for record in found), max(record.attenuation.high for record in found)


def _attenuation(found: tuple[records.Yeast, ...]) -> Value:
    label = "attenuation of the yeast"
    if len(found) == 1:
        return from_pantry(found[0].attenuation, label, usual="attenuation")
    low, high = _usual(found)
    names, first = " and ".join(record.name for record in found), found[0].attenuation
    middle = f"the middle of {names}; {first.source}"
    return from_pantry(replace(first, typical=(low + high) / 2, low=low, high=high, source=middle), label)
