"""What is done to the water, in words: what it is drawn from, what takes the chlorine out, what is stirred in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from gristbook.model.water import AcidUse, Into
from gristbook.targets.conventions import practice
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Sentence, listed, say, spoken, weighed
from gristbook.targets.water.chemistry import mix

CHLORINE_DOSE = practice(0.25, "g", "metabisulfite against chlorine", metric=True)
CHLORINE_WATER = practice(30.0, "L", "water that this much metabisulfite treats")
A_GRAM = practice(1.0, "g", "metabisulfite for a solution", metric=True)
A_LITRE = practice(1.0, "L", "water for a solution")
WEIGHABLE_G = 0.5
"""Below this a kitchen scale that shows tenths is too coarse."""


def water_sentences(plan: Plan) -> Iterator[Sentence]:
    """A tub of good water, from the tap to the salts."""
    yield _drawn(plan)
    if not any(salt.sulfite for salt in plan.recipe.water.salts):
        yield from _against_chlorine(plan)
    waters: tuple[Into, ...] = ("water",) if plan.figures.mash is not None else ("water", "mash", "sparge")
    yield say("Stir in {them}, until nothing is left on the bottom.", them=stirred_in(plan, *waters))


def stirred_in(plan: Plan, *into: Into, more: Iterable[Sentence] = ()) -> Sentence:
    """So much of each salt and acid that goes into one water or several, one after the other, and what goes with it."""
    of = plan.recipe.water
    parts: list[Sentence] = []
    for water in into:
        parts += [weighed(salt.mass, salt.name) for salt in of.salts if salt.into == water]
        parts += [_poured(acid) for acid in of.acids if acid.into == water]
    return listed([*parts, *more])


def _poured(acid: AcidUse) -> Sentence:
    """So much of an acid, its strength as the figure that it is."""
    name = acid.name.rstrip(" %.0123456789")
    return *weighed(acid.volume, name), " of ", acid.strength


def _drawn(plan: Plan) -> Sentence:
    figures = plan.figures
    waters = mix(plan.recipe.water, figures.water.total)
    others = listed([(volume, f" of {spoken(water.name)}") for water, volume in waters.others])
    none_runs = bool(others) and waters.own_l.number <= 0
    return say(
        "Take {others}{more}." if none_runs else "Draw {water} of cold drinking water{besides}{more}.",
        water=waters.own_l,
        others=others,
        besides=(", and add ", *others) if others else "",
        more=", which is enough for topping up too" if figures.volumes.top_up is not None else "",
    )


def _against_chlorine(plan: Plan) -> Iterator[Sentence]:
    """The plan's own dose where the water is known, a usual one where it is not, nothing where there is no chlorine."""
    chemistry = plan.figures.chemistry
    if chemistry is None or chemistry.chlorine is None:
        yield say(
            "If it is tap water, stir in {dose} of potassium metabisulfite for every {water}, against chlorine and "
            "chloramine, and give it a few minutes. A carbon filter serves as well.",
            dose=CHLORINE_DOSE,
            water=CHLORINE_WATER,
        )
    elif chemistry.metabisulfite is not None and chemistry.solution is not None:
        small = chemistry.metabisulfite.number < WEIGHABLE_G
        how = "stir in {dose} of potassium metabisulfite"
        if small:
            how = "dissolve {gram} of potassium metabisulfite in {litre} of water, and stir in {solution} of that alone"
        yield say(
            f"Against its chlorine, {how}. Wait a few minutes. A carbon filter serves as well.",
            dose=chemistry.metabisulfite,
            gram=A_GRAM,
            litre=A_LITRE,
            solution=chemistry.solution,
        )
