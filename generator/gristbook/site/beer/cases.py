"""What to do about wort that is not as planned, worked out ahead of the day for the readings that a learner may take.

The same is worked out here for a table of readings as for one, so that a page and `gristbook adjust` agree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gristbook.model.batch import WortStep
from gristbook.problems import Place, Problems
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Text
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, amount_of
from gristbook.site.figures import Sentence, joined
from gristbook.targets.batches.frozen import BOILING_POINT, frozen_plan
from gristbook.targets.batches.measured import Instruments
from gristbook.targets.batches.mending import NO_REMEDY, adjustment, likely_step, topped_up
from gristbook.targets.batches.results import Adjustment, Remedy
from gristbook.targets.conventions import CALIBRATION, WORT_FACTOR
from gristbook.targets.figures import Plan
from gristbook.text.batch_lines import read_level, taken_at

AS = '"23 L at 1.041", "27 L hot at 1.036, before the boil", or "20 L at 1.044, in the fermenter"'

GRAVITIES = (-0.009, -0.006, -0.003, 0.0, 0.003, 0.006)
"""How far the readings of a table lie from the plan."""

MARKS_L = (0.1, 0.25, 0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0)
"""Litres from column to column of a table: what is nearest to a twentieth of the volume planned."""

SHOWN = 1
"""So many remedies of a case have room in a table on a phone: the simplest comes first."""


@dataclass(frozen=True, slots=True)
class Row:
    """What to do at one gravity, in each volume of the table."""

    gravity: Amount
    shown: str
    cells: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A volume of the table, cool and as it is read hot, as it is printed and in litres."""

    cool: Amount
    hot: Amount | None
    cool_l: str
    hot_l: str


@dataclass(frozen=True, slots=True)
class Cases:
    """What to do about wort measured at a ``step``, by its gravity and its volume, and what to mind then."""

    step: WortStep
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    words: tuple[str, ...]


def adjusted(plan: Mapping[str, Value], words: str, place: Place, problems: Problems) -> Adjustment:
    """What was measured, put right and held against a frozen plan; `Unreadable` where that cannot be."""
    rest, step = taken_at(words)
    level = read_level(Text(rest, place, exact=False), step or "as measured", plan[BOILING_POINT], problems)
    instruments = Instruments(calibration=CALIBRATION, wort_correction=WORT_FACTOR)
    volume, read = instruments.volume(level), instruments.wort(level.gravity)
    why = "; ".join(instruments.refused) or "a volume and a gravity are needed"
    if read is not None and volume is not None:
        try:
            return adjustment(plan, step or likely_step(plan, volume), read.gravity, volume)
        except Refusal as refusal:
            why = str(refusal)
    problems.error(place, why, within=words, expected=AS)
    raise Unreadable


def doing(remedy: Remedy) -> Sentence:
    """A remedy as one says it, without a capital."""
    parts: list[Sentence] = [
        (before, value, after)
        for before, value, after in (
            ("go on with ", remedy.keep, " of it"),
            ("leave out ", remedy.leave_out, " of the top-up"),
            ("stir in ", remedy.extract, " of dried malt extract"),
            ("pour in ", remedy.water, " of water"),
            ("boil ", remedy.boil_on, " longer"),
        )
        if value is not None
    ]
    return joined(parts, " and ")


def cases_of(plan: Plan) -> Mapping[WortStep, Cases]:
    """The tables of a brew: before the boil, after it where it is topped up then, and in the fermenter."""
    figures, kept = plan.figures, frozen_plan(plan)
    volumes, wort, boils = figures.volumes, figures.wort, plan.recipe.boil.number > 0
    before = (volumes.boil, volumes.boil_hot, wort.before_the_boil)
    after = (volumes.end_of_boil, volumes.end_of_boil_hot, wort.after_the_boil)
    asked: dict[WortStep, tuple[Value, Value | None, Value]] = {}
    if boils:
        asked["before the boil"] = before
    if boils and topped_up(kept):
        asked["end of the boil"] = after
    asked["in the fermenter"] = (volumes.into_fermenter, None, wort.original)
    found = {step: _cases(kept, step, *planned) for step, planned in asked.items()}
    return {step: cases for step, cases in found.items() if cases is not None}


def _cases(plan: Mapping[str, Value], step: WortStep, cool: Value, hot: Value | None, gravity: Value) -> Cases | None:
    apart = min(MARKS_L, key=lambda mark: abs(mark - cool.number / 20))
    middle = round(cool.number / apart) * apart
    litres = [many for many in (middle - apart, middle, middle + apart) if many > 0]
    rows, words = list[Row](), dict[str, None]()
    for off in GRAVITIES:
        shown = f"{round(gravity.number, 3) + off:.3f}"
        if float(shown) <= 1.0:
            continue
        cells = list[Sentence]()
        for many in litres:
            try:
                made = adjusted(plan, f"{many:g} L at {shown}, {step}", Place(""), Problems())
            except Unreadable:
                return None
            cells.append(tuple(_as_text(part) for part in _cell(made)))
            words |= dict.fromkeys(it for it in made.words if it != NO_REMEDY)
        rows.append(Row(amount_of(float(shown), "SG"), shown, tuple(cells)))
    ratio = hot.number / cool.number if hot is not None else None
    return Cases(step, tuple(_column(many, ratio) for many in litres), tuple(rows), tuple(words))


def _column(litres: float, ratio: float | None) -> Column:
    hot = litres * ratio if ratio else 0.0
    return Column(amount_of(litres, "L"), amount_of(hot, "L") if hot else None, f"{litres:g}", f"{hot:.2f}")


def _cell(made: Adjustment) -> Sentence:
    if made.fits:
        return ("as planned",)
    if not made.remedies:
        return ("brew on, and write it down",)
    return joined([doing(remedy) for remedy in made.remedies[:SHOWN]], "; or ")


def _as_text(part: object) -> str | Amount:
    """Its numbers as text: what may happen has no place in the working of what is planned."""
    return amount(part) if isinstance(part, Value) else str(part)
