"""The same beer from malt extract, or an extract beer as whole grain, and what cannot be kept, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.moment import BeforeTheEnd, FirstWort, Stage
from gristbook.model.recipe import Malt, Recipe, Steep, Sugar
from gristbook.model.steps import MashStep
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, given, settled
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.editions.gravity import in_weights
from gristbook.targets.editions.pot import usable_l
from gristbook.targets.editions.small_mash import Weighed, dextrin, its_extract, mashed, room_kg, step_of
from gristbook.targets.editions.water import FOR_THE_MASH, without_a_mash
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import at_stage, names
from gristbook.targets.results import MaltFigures
from gristbook.targets.wort.grist import potential
from gristbook.targets.wort.roles import role

STEEP = Steep(
    given(30.0, "min", "time of the steep", words=PRACTICE),
    given(68.0, "°C", "temperature of the steep", words=PRACTICE),
)
LATE = given(10.0, "min", "minutes before the end", words="late, so that the boil stays thin: common practice")
LATE_SHARE = given(0.6, "fraction", "share of the extract that goes in late", words=PRACTICE)
EARLY_SHARE = given(0.4, "fraction", "share of the extract that is boiled whole", words=PRACTICE)
ONE_TIME_MIN = 10.0
"""Additions no further apart than this are made at one time (common practice, no source)."""
TOO_LITTLE_TO_PART_KG = 0.5
NEARLY_WHOLE = 0.8
"""The share of a wort from which a boil is as good as whole, and no extract is kept back for its end."""
DEXTRIN_SHARE = given(0.5, "fraction", "share of its extract that is dextrin", words=PRACTICE)
REST_SHARE = given(0.5, "fraction", "share of its extract that is sugar", words=PRACTICE)
PALE_LOVIBOND = 2.5
MALTODEXTRIN = "Maltodextrin"
WHEAT = "Dried malt extract, wheat"
EXTRACTS: Mapping[str, str] = {"Munich": "Liquid malt extract, Munich", "rye": "Liquid malt extract, rye"}
"""Extracts that are not sold dried, as others are."""


@dataclass(frozen=True, slots=True)
class Swapped:
    """A recipe made of other things, and what the reader should know of it."""

    recipe: Recipe
    notes: tuple[str, ...]


def as_extract(plan: Plan, brewhouse: Brewhouse, batch: Value, shelf: Mapping[str, Sugar]) -> Swapped:
    """Base malt becomes malt extract, what can be steeped is steeped, what needs a mash gets a small one.

    Raises
    ------
    Refusal
        The beer cannot honestly be made so; the words say why.
    """
    home, lines = in_weights(plan.recipe, plan.figures.grist), plan.figures.grist.malts
    if all(malt.steep is not None for malt in home.malts):
        if any(sugar.from_malt for sugar in home.sugars):
            return Swapped(plan.recipe, ())  # it is made from malt extract as it is, and only its size changes
        raise Refusal("nothing of it is mashed as it is")
    there = [line for line in lines if not _sour(line.malt)]
    small = mashed(there, room_kg(brewhouse) * home.batch.number / batch.number)
    brought = _brought(there, small)
    if not any(name != MALTODEXTRIN for name in brought):
        raise Refusal("all of it would have to be mashed")
    steeped = (replace(malt, steep=malt.steep or STEEP) for malt in home.malts if _can_be_steeped(malt))
    late = _late(home) if _boils_a_part(brewhouse, batch) else None
    recipe = replace(
        home,
        malts=(*(line.malt.weighing(mass) for line, mass in small), *steeped),
        sugars=(
            *home.sugars,
            *(it for name, parts in sorted(brought.items()) for it in _extract_lines(shelf[name], parts, late)),
        ),
        mash=step_of(home) if small else (),
        extras=tuple(extra for extra in home.extras if small or extra.moment is not Stage.MASH),
        water=without_a_mash(home.water),
        expectations=(),
    )
    notes = [*_said_of(lines, small)]
    if recipe.extras != home.extras:
        gone = names(extra.name for extra in at_stage(home, Stage.MASH))
        notes.append(f"Left out, since it goes into the mash: {gone}.")
    if recipe.water != home.water:
        notes.append(FOR_THE_MASH)
    return Swapped(recipe, tuple(notes))


def as_grain(plan: Plan, base: Malt, mash: MashStep) -> Swapped:
    """Malt extract becomes base malt of equal extract, and what was steeped is mashed with it.

    Raises
    ------
    Refusal
        There is no malt extract to replace, or it brings all the bitterness with it.
    """
    home = in_weights(plan.recipe, plan.figures.grist)
    extracts = [line for line in plan.figures.grist.sugars if line.sugar.from_malt]
    if not extracts:
        raise Refusal("it is whole grain as it is")
    if home.kits and not any(isinstance(hop.use, BeforeTheEnd | FirstWort) for hop in home.hops):
        raise Refusal("its bitterness comes in the malt extract, and no hops are boiled in it")
    efficiency = plan.brewhouse.efficiency or plan.brewhouse.conversion  # about; the edition's gravity settles it
    each = (potential(base) * efficiency).called(f"yield of {base.name}")
    all_of_it = sum_of((line.extract for line in extracts), "extract of the malt extract")
    mass = settled((all_of_it / each).called(f"weight of {base.name}"))
    recipe = replace(
        home,
        malts=(base.weighing(mass), *(replace(malt, steep=None) for malt in home.malts)),
        sugars=tuple(sugar for sugar in home.sugars if not sugar.from_malt),
        kits=(),
        kettle=None,
        extras=tuple(
            replace(extra, moment=Stage.MASH, moment_written=Stage.MASH.value) if extra.moment is Stage.STEEP else extra
            for extra in home.extras
        ),
        mash=home.mash or (mash,),
        expectations=(),
    )
    notes = [f"The malt extract's own blend is unknown: {base.name.lower()} stands for all of it."]
    if home.kits:
        notes.append("The bitterness of the hopped extract comes from the hops at the start of the boil instead.")
    return Swapped(recipe, tuple(notes))


def _can_be_steeped(malt: Malt) -> bool:
    return malt.steep is not None or not malt.needs_mash


def _sour(malt: Malt) -> bool:
    """Pale and without enzymes: kilned for the acid that it gives a mash."""
    pale = malt.colour.unit == "°L" and malt.colour.number < PALE_LOVIBOND
    return malt.kind == "kilned" and pale and role(malt) != "base" and malt.steep is None


def _boils_a_part(brewhouse: Brewhouse, batch: Value) -> bool:
    """Whether the pot boils so much less than all of the wort that it is thick with extract."""
    return usable_l(brewhouse) < NEARLY_WHOLE * batch.number


def _late(home: Recipe) -> Value:
    """When late extract goes in: with what else goes in about then, so that the boil is stopped once."""
    sugars = [sugar.minutes for sugar in home.sugars if sugar.minutes is not None and not sugar.into_fermenter]
    hops = [hop.use.minutes for hop in home.hops if isinstance(hop.use, BeforeTheEnd)]
    near = [time for time in (*sugars, *hops) if time.number > 0 and abs(time.number - LATE.number) <= ONE_TIME_MIN]
    return min(near, key=lambda time: abs(time.number - LATE.number), default=LATE)


def _said_of(lines: Sequence[MaltFigures], small: Sequence[Weighed]) -> Iterator[str]:
    """What the reader should know of the malts that malt extract alone does not stand for."""
    if small:
        *own, helper = (line.malt.name for line, _ in small)
        yield f"A small mash, with {names([helper])} to convert it, keeps what only a mash brings out: {names(own)}."
    kept = [line for line, _ in small]
    for line in lines:
        becomes = _becomes(line.malt) if line.malt.steep is None and line not in kept else ""
        if becomes:
            name = names([line.malt.name])
            yield f"{name[:1].upper()}{name[1:]} {becomes}."


def _becomes(malt: Malt) -> str:
    """What an unmashed malt becomes, where that is not quite it."""
    if _sour(malt):
        return "is left out: it sours a mash, and malt extract has been mashed already"
    if dextrin(malt):
        return "becomes maltodextrin for its body, and malt extract for the rest"
    if its_extract(malt):
        why = "for a small mash there is too little room or pale malt"
        return f"becomes {its_extract(malt)} malt extract, weaker in taste: {why}"
    return (
        "becomes wheat malt extract, a part of which is barley"
        if _extract_for(malt) == WHEAT and malt.needs_mash
        else ""
    )


def _brought(lines: Sequence[MaltFigures], small: Sequence[Weighed]) -> dict[str, list[Value]]:
    """Extract that malt extract has to bring instead of what is neither steeped nor mashed, by its name."""
    kept = {id(line.malt): mass for line, mass in small}
    brought: dict[str, list[Value]] = {}
    for line in lines:
        rest = None if _can_be_steeped(line.malt) else _less(line, kept.get(id(line.malt)))
        if rest is None:
            continue
        if dextrin(line.malt):
            body = settled((rest * DEXTRIN_SHARE).called(f"dextrin in place of {line.malt.name}"))
            brought.setdefault(MALTODEXTRIN, []).append(body)
            rest = settled((rest * REST_SHARE).called(f"extract in place of {line.malt.name}"))
        brought.setdefault(_extract_for(line.malt), []).append(rest)
    return brought


def _less(line: MaltFigures, mashed: Value | None) -> Value | None:
    """Extract of a malt that malt extract has to bring: all of it, less what the small mash keeps."""
    if mashed is None:
        return settled(line.extract)
    share = max(1 - mashed.number / line.mass.number, 0.0)
    if share == 0:
        return None
    part = given(
        share, "fraction", f"share of {line.malt.name} that becomes extract", words="the small mash keeps the rest"
    )
    return settled((line.extract * part).called(f"extract in place of {line.malt.name}"))


def _extract_for(malt: Malt) -> str:
    """Which of the pantry's malt extracts takes its place."""
    own = its_extract(malt)
    if own:
        return EXTRACTS[own]
    pale = malt.colour.unit == "°L" and malt.colour.number < PALE_LOVIBOND
    if malt.cereal == "wheat":
        return WHEAT
    return f"Dried malt extract, {'extra light' if pale else 'light'}"


def _extract_lines(kind: Sugar, parts: list[Value], late: Value | None) -> Iterator[Sugar]:
    """Malt extract for so much extract: boiled whole or, where a time is ``late``, most of it stirred in then."""
    whole = sum_of(parts, f"extract that {kind.name} brings")
    held = potential(kind)
    mass = (whole / held).called(f"weight of {kind.name}")
    if late is None or mass.number < TOO_LITTLE_TO_PART_KG or not kind.from_malt:
        when = Stage.KETTLE if late is None else BeforeTheEnd(late)
        yield replace(kind.weighing(settled(mass)), moment=when)
        return
    for share, moment in ((EARLY_SHARE, Stage.KETTLE), (LATE_SHARE, BeforeTheEnd(late))):
        part = (mass * share).called(f"weight of {kind.name}")
        yield replace(kind.weighing(settled(part)), moment=moment)
