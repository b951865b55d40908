"""The mash, rest by rest: how hot and how long, how it gets there, and what the malt's enzymes do meanwhile."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from gristbook.equations.mash_enzymes import ENZYMES
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.targets.figures import Plan
from gristbook.targets.results import Mash, Rest

WORK: Mapping[str, str] = {
    "beta-glucanase": "thins the wort of oats, rye and wheat",
    "protease": "breaks protein down: clearer beer, less body and foam",
    "beta-amylase": "makes sugar that the yeast can eat",
    "alpha-amylase": "breaks starch up into sugars and dextrins",
}
"""What each enzyme does that a brewer notices (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class RestRow:
    """A rest, how it is reached, and the enzymes: a name and what it does."""

    heat: Figure
    time: Figure
    reached: Sentence
    enzymes: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class MashView:
    """The rests in order, and what runs off."""

    rests: tuple[RestRow, ...]
    runnings: tuple[Sentence, ...]


def mash_view(plan: Plan, shown: Shown) -> MashView | None:
    """The mash of a plan; nothing where nothing is mashed."""
    mash = plan.figures.mash
    if mash is None:
        return None
    first, *later = mash.rests
    strike = shown.say("pour ", mash.water, " at ", mash.strike, " on to the grain")
    rows = [_row(first, strike, shown)]
    rows += [_row(rest, _reached(before, rest, shown), shown) for before, rest in pairwise((first, *later))]
    return MashView(tuple(rows), tuple(_runnings(mash, shown)))


def enzymes_in_words(temperature_c: float) -> tuple[tuple[str, str], ...]:
    """Which enzymes are at their best at a temperature, each with what it does; between two, both.

    >>> [name for name, _ in enzymes_in_words(67.5)]
    ['beta-amylase, past its best', 'alpha-amylase, not yet at its best']
    >>> enzymes_in_words(80)
    (('none', 'it is too hot for them to last'),)
    """
    best = dict.fromkeys(row.enzyme for row in ENZYMES if row.low_c <= temperature_c <= row.high_c)
    if best:
        return tuple((name, WORK[name]) for name in best)
    below = [row for row in ENZYMES if row.high_c < temperature_c]
    above = [row for row in ENZYMES if row.low_c > temperature_c]
    if not above:
        return (("none", "it is too hot for them to last"),)
    if not below:
        return (("none", "it is too cool for them to do much"),)
    cooler = max(below, key=lambda row: row.high_c).enzyme
    hotter = min(above, key=lambda row: row.low_c).enzyme
    return (f"{cooler}, past its best", WORK[cooler]), (f"{hotter}, not yet at its best", WORK[hotter])


def _row(rest: Rest, reached: Sentence, shown: Shown) -> RestRow:
    heat = rest.step.temperature
    return RestRow(shown(heat), shown(rest.step.minutes), reached, enzymes_in_words(round(heat.number, 1)))


def _reached(before: Rest, rest: Rest, shown: Shown) -> Sentence:
    if rest.infusion is not None:
        return shown.say("add ", rest.infusion, " of boiling water")
    if rest.decoction is not None:
        return shown.say("draw ", rest.decoction, " of mash, boil it, and stir it back")
    if rest.step.temperature.number > before.step.temperature.number:
        return ("heat the mash gently",)
    return ("let it cool" if rest.step.temperature.number < before.step.temperature.number else "leave it be",)


def _runnings(mash: Mash, shown: Shown) -> list[Sentence]:
    room = shown.say(
        *("At ", mash.thickness, " the mash takes up ", mash.volume, " of room, and the grain keeps "),
        *(mash.absorbed, " of its water."),
    )
    if mash.sparge is None:
        return [
            room,
            shown.say("All of the water is in it, so the wort that drains from the bag is the wort you boil."),
        ]
    first = shown.say(
        *("The first wort to run off should show ", mash.first_runnings, ", or ", mash.first_plato, "; the sparge "),
        "washes the rest out after it, thinner and thinner.",
    )
    if mash.sparged is None:
        return [room, first]
    batch = shown.say(
        *("Poured in as one batch, stirred and run off, the sparge brings the mash efficiency to about "),
        *(mash.sparged, ", by the balance of the extract."),
    )
    return [room, first, batch]
