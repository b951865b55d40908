"""The same beer from malt extract, or an extract beer as whole grain, and what cannot be kept, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from gristbook.equations import extract, scaling
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, MashStep, Recipe, Steep, Sugar
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.editions.water import FOR_THE_MASH, without_a_mash
from gristbook.targets.figures import Plan
from gristbook.targets.grist import potential
from gristbook.targets.results import MaltFigures
from gristbook.targets.roles import role
from gristbook.worksheet import Value, apply, given, settled

STEEP = Steep(
    given(30.0, "min", "time of the steep", origin=PRACTICE),
    given(68.0, "°C", "temperature of the steep", origin=PRACTICE),
)
LATE = given(10.0, "min", "minutes before the end", origin="late, so that the boil stays thin: common practice")
LATE_SHARE = given(0.6, "fraction", "share of the extract that goes in late", origin=PRACTICE)
EARLY_SHARE = given(0.4, "fraction", "share of the extract that is boiled whole", origin=PRACTICE)
TOO_LITTLE_TO_PART_KG = 0.5
PALE_LOVIBOND = 2.5
ENOUGH_POWER = 35.0
"""Mean diastatic power, in °Lintner, that a small mash is given."""
TOASTED = frozenset({"kilned"})


@dataclass(frozen=True, slots=True)
class Swapped:
    """A recipe made of other things, and what the reader should know of it."""

    recipe: Recipe
    notes: tuple[str, ...]


def as_extract(plan: Plan, brewhouse: Brewhouse, shelf: Mapping[str, Sugar]) -> Swapped:
    """Base malt becomes malt extract, what can be steeped is steeped, what needs a mash gets a small one.

    Raises
    ------
    ValueError
        The beer cannot honestly be made so; the words say why.
    """
    if not any(line.malt.steep is None for line in plan.figures.grist.malts):
        raise ValueError("it is made from malt extract as it is")
    lines = plan.figures.grist.malts
    mashed = [line for line in lines if _must_be_mashed(line.malt)]
    can_mash = brewhouse.mash != "none"
    small = mashed if can_mash else []
    notes = list(_what_is_lost(mashed, can_mash))
    helpers = list(_helpers(lines, small)) if small else []
    helped = {id(line.malt): mass for line, mass in helpers}
    malts = [replace(line.malt, mass=line.mass, share=None) for line in small]
    malts += [replace(line.malt, mass=mass, share=None) for line, mass in helpers]
    malts += [
        replace(line.malt, mass=line.mass, share=None, steep=line.malt.steep or STEEP)
        for line in lines
        if line.malt.steep is not None or not line.malt.needs_mash
    ]
    brought: dict[str, list[Value]] = {}
    for line in lines:
        if line.malt.steep is not None or not line.malt.needs_mash or line in small:
            continue
        kept = _less(line, helped.get(id(line.malt)))
        if kept is not None and (not _must_be_mashed(line.malt) or line.malt.kind in TOASTED):
            brought.setdefault(_extract_for(line.malt), []).append(kept)
    sugars = [replace(line.sugar, mass=line.mass, share=None) for line in plan.figures.grist.sugars]
    if not brought:
        names = " and ".join(sorted({line.malt.name for line in small}))
        raise ValueError(f"{names} make this beer, and only a mash brings them out: from extract it is another")
    for name, parts in sorted(brought.items()):
        sugars += _extract_lines(shelf[EXTRACTS[name]], parts)
    if small:
        notes.append("What needs a mash gets a small one, in the bag, before the extract goes in.")
    recipe = replace(
        plan.recipe,
        malts=tuple(malts),
        sugars=tuple(sugars),
        mash=plan.recipe.mash if small else (),
        water=without_a_mash(plan.recipe.water),
        original_gravity=None,
        expectations=(),
    )
    if recipe.water != plan.recipe.water:
        notes.append(FOR_THE_MASH)
    return Swapped(recipe, tuple(notes))


def as_grain(plan: Plan, base: Malt, mash: MashStep) -> Swapped:
    """Malt extract becomes base malt of equal extract, and what was steeped is mashed with it.

    Raises
    ------
    ValueError
        There is no malt extract to replace.
    """
    figures = plan.figures.grist
    extracts = [line for line in figures.sugars if line.sugar.from_malt]
    if not extracts:
        raise ValueError("it is whole grain as it is")
    efficiency = plan.brewhouse.efficiency or plan.brewhouse.conversion
    each = apply(
        extract.effective_yield, f"yield of {base.name}", potential=potential(base, apply), efficiency=efficiency
    )
    all_of_it = apply(
        extract.total_extract, "extract of the malt extract", parts_kg=tuple(line.extract for line in extracts)
    )
    mass = settled(apply(scaling.mass_for_extract, f"weight of {base.name}", extract_kg=all_of_it, potential=each))
    recipe = replace(
        plan.recipe,
        malts=(
            replace(base, mass=mass, share=None),
            *(replace(line.malt, mass=line.mass, share=None, steep=None) for line in figures.malts),
        ),
        sugars=tuple(
            replace(line.sugar, mass=line.mass, share=None) for line in figures.sugars if not line.sugar.from_malt
        ),
        kettle=None,
        mash=(mash,),
        expectations=(),
    )
    return Swapped(recipe, ("The malt extract's own blend is unknown: pale ale malt stands for all of it.",))


def _must_be_mashed(malt: Malt) -> bool:
    """What brings starch and is no plain base malt: it has a taste of its own that extract does not have."""
    return malt.steep is None and malt.needs_mash and not (role(malt) == "base" and malt.kind == "base")


def _what_is_lost(mashed: list[MaltFigures[Value]], can_mash: bool) -> Iterator[str]:
    if can_mash:
        return
    for line in mashed:
        if line.malt.kind in TOASTED:
            yield f"{line.malt.name} becomes amber malt extract: the colour is near, the taste of toast is weaker."
        else:
            yield f"{line.malt.name} is left out, for only a mash converts it: the beer is thinner without it."


def _helpers(
    lines: tuple[MaltFigures[Value], ...], small: list[MaltFigures[Value]]
) -> Iterator[tuple[MaltFigures[Value], Value]]:
    """Base malt for the small mash: as much as brings its mean diastatic power to what converts."""
    bases = [line for line in lines if line.malt.steep is None and line.malt.kind == "base"]
    best = max(bases, key=lambda line: _power(line.malt), default=None)
    lacking = sum(line.mass.number * (ENOUGH_POWER - _power(line.malt)) for line in small)
    if best is None or lacking <= 0 or _power(best.malt) <= ENOUGH_POWER:
        return
    wanted = max(lacking / (_power(best.malt) - ENOUGH_POWER), sum(line.mass.number for line in small))
    yield best, given(min(wanted, best.mass.number), "kg", f"{best.malt.name} for the small mash", origin=PRACTICE)


def _power(malt: Malt) -> float:
    return malt.diastatic_power.number if malt.diastatic_power else 0.0


def _less(line: MaltFigures[Value], mashed: Value | None) -> Value | None:
    """Extract of a malt that malt extract has to bring: all of it, less what the small mash keeps."""
    if mashed is None:
        return settled(line.extract)
    share = max(1 - mashed.number / line.mass.number, 0.0)
    if share == 0:
        return None
    part = given(
        share, "fraction", f"share of {line.malt.name} that becomes extract", origin="the small mash keeps the rest"
    )
    return settled(
        apply(extract.share_of_grist, f"extract in place of {line.malt.name}", grist_kg=line.extract, share=part)
    )


def _extract_for(malt: Malt) -> str:
    if malt.cereal == "wheat":
        return "wheat"
    if malt.kind in TOASTED:
        return "amber"
    return "extra light" if malt.colour.unit == "°L" and malt.colour.number < PALE_LOVIBOND else "light"


def _extract_lines(kind: Sugar, parts: list[Value]) -> Iterator[Sugar]:
    """Malt extract for so much extract, some of it boiled whole and the rest stirred in late."""
    whole = apply(extract.total_extract, f"extract that {kind.name} brings", parts_kg=tuple(parts))
    held = potential(kind, apply)
    mass = apply(scaling.mass_for_extract, f"weight of {kind.name}", extract_kg=whole, potential=held)
    if mass.number < TOO_LITTLE_TO_PART_KG:
        yield replace(kind, mass=settled(mass), minutes=LATE)
        return
    for share, minutes in ((EARLY_SHARE, None), (LATE_SHARE, LATE)):
        part = apply(extract.share_of_grist, f"weight of {kind.name}", grist_kg=mass, share=share)
        yield replace(kind, mass=settled(part), minutes=minutes)


EXTRACTS: Mapping[str, str] = {
    "light": "Dried malt extract, light",
    "extra light": "Dried malt extract, extra light",
    "amber": "Dried malt extract, amber",
    "wheat": "Dried malt extract, wheat",
}
"""The malt extracts of the pantry that base malts are replaced by."""
