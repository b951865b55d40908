"""The mash, rest by rest: how hot and how long, how it gets there, and what the malt's enzymes do meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from gristbook.equations.mash_enzymes import ENZYMES
from gristbook.model.steps import MashStep
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, say
from gristbook.targets.results import Mash, Rest
from gristbook.targets.wort.small_mash import is_small

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

    step: MashStep
    reached: Sentence
    enzymes: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class MashView:
    """The rests in order, and what runs off."""

    rests: tuple[RestRow, ...]
    runnings: tuple[Sentence, ...]


def mash_view(plan: Plan) -> MashView | None:
    """The mash of a plan; nothing where nothing is mashed."""
    mash = plan.figures.mash
    if mash is None:
        return None
    strike = say("pour {water} at {heat} on to the grain", water=mash.water, heat=mash.strike)
    reached = [strike, *(_reached(before, rest) for before, rest in pairwise(mash.rests))]
    rows = (
        RestRow(rest.step, how, enzymes_in_words(round(rest.step.temperature.number, 1)))
        for rest, how in zip(mash.rests, reached, strict=True)
    )
    return MashView(tuple(rows), tuple(_runnings(mash, small=is_small(plan.recipe, plan.brewhouse))))


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


def _reached(before: Rest, rest: Rest) -> Sentence:
    if rest.infusion is not None:
        return "add ", rest.infusion, *((" at ", rest.step.hot) if rest.step.hot else (" of boiling water",))
    if rest.decoction is not None:
        return "draw ", rest.decoction, " of mash, boil it, and stir it back"
    if rest.step.temperature.number > before.step.temperature.number:
        return ("heat the mash gently",)
    return ("let it cool" if rest.step.temperature.number < before.step.temperature.number else "leave it be",)


def _runnings(mash: Mash, *, small: bool) -> Iterator[Sentence]:
    yield say(
        "At {thickness} the mash takes up {volume} of room, and the grain keeps {absorbed} of its water.",
        thickness=mash.thickness,
        volume=mash.volume,
        absorbed=mash.absorbed,
    )
    if small:
        then = "What drains from the bag should show {gravity}, or {plato}; more water and the malt extract join it."
        yield say(then, gravity=mash.first_runnings, plato=mash.first_plato)
        return
    if mash.sparge is None:
        yield ("All of the water is in it, so the wort that drains from the bag is the wort you boil.",)
    else:
        yield say(
            "The first wort to run off should show {gravity}, or {plato}; the sparge, stirred in as one batch, washes "
            "out what stays behind it.",
            gravity=mash.first_runnings,
            plato=mash.first_plato,
        )
    yield say(
        "By the balance of the extract, {lauter} of what the mash dissolves runs off a grist this heavy.",
        lauter=mash.lauter,
    )
