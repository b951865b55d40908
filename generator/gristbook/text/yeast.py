"""Lines of yeast to the model."""

import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from datetime import date

from gristbook.model.brings import NOTHING
from gristbook.model.moment import BeforePackaging, BeforeTheBoil, Moment
from gristbook.model.yeast import Yeast
from gristbook.pantry import records
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import on_line
from gristbook.text.assumed import ATTENUATION, assumed_yeast
from gristbook.text.brew import Brew
from gristbook.text.values import Desk, from_pantry, in_days, said
from gristbook.text.yeast_use import amount_of, called, grown_first, moment_of

MONTHS = 60.0
"""Days in which a yeast that eats on may take a beer to the driest (common practice, no source: two months or more)."""
NOT_RECKONED = "the acid that bacteria make is not reckoned, nor what it does to the taste"


class _Stranger(Unreadable):
    """What a line of yeast names is none that anybody knows, nor a slip of one, and nothing has been filed of it."""


def read_yeasts(nodes: Iterable[Node], written: str, brew: Brew, desk: Desk) -> tuple[Yeast, ...]:
    """The lines under `yeast` that can be read.

    What nobody knows is a note beside a yeast that is known, and an error where none is. ``written`` is
    the recipe's own date, from which a pack's age is counted; nothing here asks the clock.
    """
    found: list[Yeast] = []
    strange: list[Line] = []
    for node in nodes:
        with suppress(Unreadable):
            line = grown_first(desk.line(node, "yeast"))
            try:
                found.append(_read_yeast(line, written, brew, desk))
            except _Stranger:
                strange.append(line)
    for line in strange:
        if not found:
            desk.unknown(
                line, [], f'unknown yeast "{line.name.value}"', "yeast", f"a yeast of the pantry, or {ATTENUATION}"
            )
            continue
        what = f'"{line.whole}" is no yeast that anybody knows: shown as a note, what it ferments is not reckoned'
        line.warning(what, ATTENUATION, at=line.name)
        found[0] = replace(found[0], note="; ".join(it for it in (found[0].note, line.whole) if it))
    return tuple(found)


def _read_yeast(line: Line, written: str, brew: Brew, desk: Desk) -> Yeast:
    match = desk.pantry.yeasts.look_up(line.name.value)
    if not match.found and not match.nearest and not assumed_yeast(line) and not desk.elsewhere(line, "yeast"):
        raise _Stranger
    found = desk.only(line, match, "yeast", ATTENUATION, assumed_yeast)
    record = found.record
    stated = line.quantity("attenuation")
    form = line.get("form")
    in_grams = line.amount is not None and line.amount.base == "kg"
    by_name = re.search(r"\bdr(?:y|ied)\b", line.name.value, re.IGNORECASE) is not None
    dried = form.word.startswith("dr") if form else by_name or in_grams or line.get("each") is not None
    line = _undosed(line, record)
    amount, age, starter = amount_of(line, dried, brew), _age(line, written), line.quantity("starter")
    moment = moment_of(line, brew)
    timed = line.get("later") or line.get("soured") or line.get("pH")
    _as_warm_as_said(line, moment, brew)
    unread = (timed and moment is None, line.get("starter") and starter is None)
    if (line.get("age") and age is None) or any(unread):
        raise Unreadable
    if ((line.amount or line.get("cells")) and amount is None) or (line.get("attenuation") and stated is None):
        raise Unreadable
    bacteria = "bacteria" in record.species or isinstance(moment, BeforeTheBoil)
    if bacteria:
        line.warning(NOT_RECKONED, "a reading of its pH, and a taste", at=line.name)
    label = "attenuation of the yeast"
    return Yeast(
        name=record.name,
        amount=amount,
        dried=dried,
        age=age,
        attenuation=said(stated, label, usual="attenuation") if stated else _attenuation(record, moment, label),
        usual_attenuation=(record.attenuation.low, record.attenuation.high),
        diastatic=record.diastatic != "no",
        kind=record.kind,
        coolest_c=record.temperature.low,
        warmest_c=record.temperature.high,
        tolerance_abv=100 * record.alcohol_tolerance.typical,
        place=line.place,
        brings=on_line(line, NOTHING, desk),
        pitch_rate=_pitch_rate(line, record),
        called=called(line, dried=dried),
        starter=said(starter, "starter of the yeast") if starter else None,
        moment=moment,
        bacteria=bacteria,
        own_words=found.own_words,
        note=line.note,
        assumed=found.assumed,
    )


def _undosed(line: Line, record: records.Yeast) -> Line:
    """A line without an amount of bacteria that nobody weighs, which is a note then."""
    if line.amount is None or line.amount.base != "pieces" or "bacteria" not in record.species:
        return line
    what = f'"{line.amount.text}" of bacteria is shown as a note: no dose of them is reckoned'
    line.warning(what, "a reading of its pH", at=line.amount)
    noted = Text(line.amount.text, line.amount.place, exact=False)
    return replace(line, amount=None, notes=(noted, *line.notes))


def _attenuation(record: records.Yeast, moment: Moment | BeforeTheBoil | None, label: str) -> Value:
    """The family's; but a second yeast that eats on for months is taken to leave nothing: nobody is to bottle early."""
    months = isinstance(moment, BeforePackaging) and moment.days.number >= MONTHS
    if record.diastatic == "no" or not months:
        return from_pantry(record.attenuation, label, usual="attenuation")
    why = "what eats on for months may leave nothing (common practice, no source)"
    ends = (record.attenuation.low - 1, 0.0)
    return given(1.0, "fraction", label, words=f"by default: {why}", by=By.DEFAULT, ends=ends)


def _as_warm_as_said(line: Line, moment: Moment | BeforeTheBoil | None, brew: Brew) -> None:
    """Warn of a temperature on the line of a yeast that no step of its ferment has."""
    text = line.get("temperature")
    if text is None or isinstance(moment, BeforeTheBoil):
        return
    for heat in (line.read(piece, f.TEMPERATURE) for piece in text.split(",")):
        there = (
            any(it.coolest.number - 1 <= heat.number <= it.warmest.number + 1 for it in brew.ferment) if heat else True
        )
        if heat and (moment is not None or not there):
            line.warning(f"{heat.text} is not reckoned: the steps of ferment count", "a step so warm", at=heat)


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
        raise line.error(f'"{text.value}" is not a date', f.DATE.words, at=text) from None
    if not written:
        line.warning("no date to count from: the pack is taken as fresh", "the recipe's date, as a field", at=text)
        return None
    days = (date.fromisoformat(written) - made).days
    if days < 0:
        raise line.error(f"the yeast was made after the recipe's date, {written}", at=text)
    return given(
        float(days), "d", "age of the yeast", words=f"from {text.value} to {written}", by=By.AUTHOR, place=text.place
    )


def _pitch_rate(line: Line, record: records.Yeast) -> Value | None:
    """What the line says, else the rate that its family asks for itself."""
    label, unit, own = "pitch rate", "10⁶ cells/(mL·°P)", record.pitch_rate
    if stated := line.quantity("pitch rate"):
        return said(stated, label, unit=unit)
    if own is None:
        return None
    certain = replace(own, low=own.typical, high=own.typical)  # it is decided, and not found out
    return from_pantry(certain, label, unit=unit)
