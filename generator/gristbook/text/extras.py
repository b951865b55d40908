"""Lines of finings, spices and whatever else goes in, to the model."""

import re
from dataclasses import replace

from gristbook.model.brings import Brings
from gristbook.model.extra import Bounds, Extra
from gristbook.model.moment import IN_THE_BEER, Moment, Stage
from gristbook.pantry.lookup import Match
from gristbook.pantry.records import Fining
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, UP_TO, Quantity, Unreadable, number_in
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import brings_by_name, brings_of, on_line
from gristbook.text.brew import Brew
from gristbook.text.parts.extras import OWN_WORDS, STAGES
from gristbook.text.values import Desk, name_in, prepared, said
from gristbook.text.weighed import is_chemical, refuse_guessed_chemicals

SECTION = "finings and spices"

A_LITRE = {"g/L": "kg", "mL/L": "L"}
"""What so much in a litre of the batch is kept in."""
COUNTED = ("kg", "L", "packs", "pieces", "", *A_LITRE)
"""What an amount of a fining or a spice may be kept in; a bare number counts pieces."""

WHEN = ("time", "end", "days", "moment")
"""The properties that say when it goes in."""


def read_extra(node: Node, brew: Brew, desk: Desk) -> Extra:
    """A fining, a spice; a name that the pantry does not know is taken as it stands."""
    line = _of_so_many(desk.line(node, SECTION))
    match = desk.pantry.finings.look_up(line.name.value)
    found = match.found
    misplaced = not found and desk.elsewhere(line, SECTION, f", of which nothing is reckoned among {SECTION}")
    if misplaced:
        raise Unreadable
    refuse_guessed_chemicals(line, bool(found))
    if not found:
        _warn_of_unknown(line, match)
    name = found[0].name if len(found) == 1 else line.name.value
    moment = _moment(line, name, brew)
    if moment is None and any(line.get(key) for key in WHEN):
        raise Unreadable
    amount = line.amount
    if amount and amount.base not in COUNTED:
        raise line.error(f'"{amount.text}" is not an amount', "an amount, as 5 g", at=amount)
    return Extra(
        name=name,
        amount=_amount(amount, line.name.value, brew.batch) if amount else None,
        written=_written(amount) if amount else "",
        moment=Stage.MASH if moment is None and found and found[0].kind == "lautering aid" else moment,
        moment_written=", ".join(_called(text) for key in WHEN if (text := line.get(key))),
        said=", ".join(prepared(line)),
        counted=re.sub(rf"(?:{NUMBER}|{IN_WORDS}){UP_TO}\s*", "", _written(amount)) if amount else "",
        note=line.note,
        purpose=found[0].purpose if len(found) == 1 else "",
        bounds=_bounds(found, A_LITRE.get(amount.base, amount.base)) if amount else None,
        place=line.place,
        brings=on_line(line, _brings(line.name.value, found, desk), desk),
        known=bool(found),
        spirit=any(record.kind == "spirit" for record in found),
    )


def _of_so_many(line: Line) -> Line:
    """ "zest of 2 lemons" as two of lemon zest."""
    said_of = re.fullmatch(
        rf"(?P<part>zest|peel|rind) of (?P<number>{NUMBER}|{IN_WORDS})\s+(?P<what>.+)", line.name.value, re.I
    )
    if said_of is None or line.amount is not None:
        return line
    number, place = said_of["number"], line.name.place
    name = Text(f"{said_of['what']} {said_of['part']}", place, exact=False)
    return replace(line, amount=Quantity(number_in(number), "", number, place), name=name)


def is_of_kind(node: Node, desk: Desk, *kinds: str) -> bool:
    """Whether a line of another section is of such a thing, as hulls among the malts, or an enzyme in the water."""
    found = desk.pantry.finings.look_up(name_in(node))
    return found.exact and found.only is not None and found.only.kind in kinds


def _amount(amount: Quantity, name: str, batch: Value) -> Value:
    unit = amount.base or "pieces"
    if unit in A_LITRE:
        a_litre = said(amount, f"dose of {name}", unit="g/L" if unit == "g/L" else "mL/L")
        whole = (a_litre * batch).called(f"amount of {name}")
        return given(
            whole.number / 1000 if whole.unit in ("g", "mL") else whole.number,
            A_LITRE[unit],
            whole.label,
            words=f"the recipe: {amount.text}, in {batch.number:g} L",
            by=By.AUTHOR,
            place=amount.place,
        )
    return said(amount, f"amount of {name}", unit=unit, metric=is_chemical(name))


def _written(amount: Quantity) -> str:
    """The author's own words for an amount; pieces are shown in them, so those are in small letters, "2 pods"."""
    if amount.base in A_LITRE:
        return ""
    counted = amount.base in ("pieces", "")
    return re.sub(r"(?<=[\d¼½¾⅓⅔⅛])(?=[a-z])", " ", amount.text.casefold()) if counted else amount.text


def _warn_of_unknown(line: Line, match: Match[Fining]) -> None:
    nothing = "no sugar, no volume" if line.get("allergens") else "no sugar, no volume, no allergen"
    line.warning(
        f'"{line.name.value}" is in no list: nothing is reckoned of it, {nothing}',
        "a name that the pantry has, or its own entry in pantry/finings.yaml",
        at=line.name,
        suggestion=match.nearest,
    )


def _brings(name: str, found: tuple[Fining, ...], desk: Desk) -> Brings:
    """What all that a name may mean brings together."""
    if not found:
        return brings_by_name(name, desk.pantry)
    each = [brings_of(record, desk.pantry) for record in found]
    return Brings(tuple(sorted({it for one in each for it in one.names})), open=any(one.open for one in each))


def _bounds(found: tuple[Fining, ...], base: str) -> Bounds | None:
    """The strictest bounds of all that a name may mean, where an amount in ``base`` can be weighed."""
    bounds = []
    for record in found:
        weights = {"kg": 1000.0}
        weights |= {"L": record.density.typical} if record.density else {}
        weights |= dict.fromkeys(("pieces", ""), 1000 * record.piece.typical) if record.piece else {}
        if base in weights and record.usual_dose and record.most:
            usual, most = record.usual_dose.typical, record.most.typical
            bounds.append(Bounds(usual, most, weights[base], record.too_much, record.most.source))
    return min(bounds, key=lambda one: one.most, default=None)


def _called(when: Text) -> str:
    """A moment as it is told: in the author's word for it where that is another than ours."""
    ours = next((stage.value for stage, pattern in STAGES if fits(pattern, when.value)), when.word)
    return when.word if OWN_WORDS.search(when.word) else ours


def _moment(line: Line, name: str, brew: Brew) -> Moment | None:
    """When it goes in; `None` where the line does not say, or with a problem filed."""
    said_keys = {key for key in WHEN if line.get(key)}
    stage = meant(text, STAGES) if (text := line.get("moment")) else None
    beside = {"days": (*IN_THE_BEER, None), "time": (Stage.KETTLE, None)}
    if len(said_keys) > 1 and not any(said_keys == {key, "moment"} and stage in beside[key] for key in beside):
        line.error(f"this says {' and '.join(key for key in WHEN if key in said_keys)}", "one moment, or a line each")
        return None
    timing = brew.timed(line, f"{name}, before the end of the boil", f"{name}, before packaging")
    if stage is Stage.PACKAGING or not said_keys & {"days", "time", "end"}:
        return stage
    return timing
