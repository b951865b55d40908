"""The same beer from malt extract, or an extract beer as whole grain, and what cannot be kept, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.moment import BeforeTheEnd, FirstWort, Stage
from gristbook.model.recipe import Malt, MashStep, Recipe, Steep, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, given, settled
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.editions.gravity import in_weights
from gristbook.targets.editions.water import FOR_THE_MASH, without_a_mash
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import at_stage, names
from gristbook.targets.results import MaltFigures
from gristbook.targets.wort.grist import potential
from gristbook.targets.wort.roles import lintner, role

STEEP = Steep(
    given(30.0, "min", "time of the steep", words=PRACTICE),
    given(68.0, "°C", "temperature of the steep", words=PRACTICE),
)
LATE = given(10.0, "min", "minutes before the end", words="late, so that the boil stays thin: common practice")
LATE_SHARE = given(0.6, "fraction", "share of the extract that goes in late", words=PRACTICE)
EARLY_SHARE = given(0.4, "fraction", "share of the extract that is boiled whole", words=PRACTICE)
TOO_LITTLE_TO_PART_KG = 0.5
PALE_LOVIBOND = 2.5
ENOUGH_POWER = 35.0
"""Mean diastatic power, in °Lintner, that a small mash is given."""
EXTRACTED = frozenset({"barley", "wheat"})
"""Cereals that malt extract is made of; of the others' base malts, it has not the taste."""
MAY_BE_LEFT_OUT = 0.20
"""The share of a grist that may be left out before it is another beer (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Swapped:
    """A recipe made of other things, and what the reader should know of it."""

    recipe: Recipe
    notes: tuple[str, ...]


def as_extract(plan: Plan, brewhouse: Brewhouse, shelf: Mapping[str, Sugar]) -> Swapped:
    """Base malt becomes malt extract, what can be steeped is steeped, what needs a mash gets a small one.

    Where nothing can be mashed, toasted malt becomes an extract of its colour, and the rest is left out.

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
    can_mash = brewhouse.mash != "none"
    own_mash = [line for line in lines if _must_be_mashed(line.malt)]
    small = [(line, line.mass) for line in own_mash] if can_mash else []
    mashed = [*small, *(_helpers(lines, own_mash) if small else ())]
    lost = [] if can_mash else [line for line in own_mash if not _toasted(line.malt)]
    _check_what_is_lost(lost)
    brought = _brought(lines, mashed, lost)
    if not brought:
        raise Refusal(f"only a mash brings out {_names(own_mash)}, and nothing else of it is made of malt")
    steeped = (replace(malt, steep=malt.steep or STEEP) for malt in home.malts if _can_be_steeped(malt))
    recipe = replace(
        home,
        malts=(*(line.malt.weighing(mass) for line, mass in mashed), *steeped),
        sugars=(
            *home.sugars,
            *(line for name, parts in sorted(brought.items()) for line in _extract_lines(shelf[name], parts)),
        ),
        mash=home.mash if small else (),
        extras=tuple(extra for extra in home.extras if small or extra.moment is not Stage.MASH),
        water=without_a_mash(home.water),
        expectations=(),
    )
    notes = [*_said_of([] if can_mash else own_mash, lost, bool(small))]
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


def _must_be_mashed(malt: Malt) -> bool:
    """What brings starch and has a taste of its own that malt extract does not have: no plain base malt."""
    plain = role(malt) == "base" and malt.kind == "base" and malt.cereal in EXTRACTED
    return malt.steep is None and malt.needs_mash and not plain


def _can_be_steeped(malt: Malt) -> bool:
    return malt.steep is not None or not malt.needs_mash


def _toasted(malt: Malt) -> bool:
    """Kilned for colour, so that an extract of that colour comes near; the sour malt of that kind is pale."""
    return malt.kind == "kilned" and (malt.colour.unit != "°L" or malt.colour.number >= PALE_LOVIBOND)


def _names(lines: Sequence[MaltFigures]) -> str:
    return " and ".join(sorted({line.malt.name for line in lines}))


def _check_what_is_lost(lost: Sequence[MaltFigures]) -> None:
    """A handful may be left out; what makes the beer may not.

    Raises
    ------
    Refusal
        So much would be left out, or smoke, that it is another beer.
    """
    share = sum(line.share_by_weight.number for line in lost)
    smoked = [line for line in lost if line.malt.kind == "smoked"]
    if smoked:
        raise Refusal(f"{_names(smoked)} gives the smoke, and only a mash brings it out")
    if share > MAY_BE_LEFT_OUT:
        what, they = ("is", "it") if len(lost) == 1 else ("are", "them")
        raise Refusal(f"{_names(lost)} {what} too much of the grist to leave out, and only a mash brings {they} out")


def _said_of(unmashed: Sequence[MaltFigures], lost: Sequence[MaltFigures], small: bool) -> Iterator[str]:
    """What the reader should know of the malts that nothing but a mash brings out."""
    for line in unmashed:
        if line in lost:
            yield f"{line.malt.name} is left out: only a mash makes use of it, and the beer does without."
        else:
            kind = _extract_for(line.malt)
            yield f"{line.malt.name} becomes {kind} malt extract: the colour is near, the taste of toast is weaker."
    if small:
        yield "What needs a mash gets a small one, before the extract goes in."


def _brought(
    lines: Sequence[MaltFigures], mashed: Sequence[tuple[MaltFigures, Value]], lost: Sequence[MaltFigures]
) -> dict[str, list[Value]]:
    """Extract that malt extract has to bring instead of what is neither steeped, mashed nor lost, by its name."""
    kept = {id(line.malt): mass for line, mass in mashed}
    brought: dict[str, list[Value]] = {}
    for line in lines:
        rest = None if _can_be_steeped(line.malt) or line in lost else _less(line, kept.get(id(line.malt)))
        if rest is not None:
            brought.setdefault(f"Dried malt extract, {_extract_for(line.malt)}", []).append(rest)
    return brought


def _helpers(lines: Sequence[MaltFigures], small: Sequence[MaltFigures]) -> Iterator[tuple[MaltFigures, Value]]:
    """Base malt for the small mash: as much as brings its mean diastatic power to what converts."""
    bases = [line for line in lines if line.malt.kind == "base" and line not in small and line.malt.steep is None]
    best = max(bases, key=lambda line: lintner(line.malt), default=None)
    lacking = sum(line.mass.number * (ENOUGH_POWER - lintner(line.malt)) for line in small)
    if best is None or lacking <= 0 or lintner(best.malt) <= ENOUGH_POWER:
        return
    wanted = max(lacking / (lintner(best.malt) - ENOUGH_POWER), sum(line.mass.number for line in small))
    yield best, given(min(wanted, best.mass.number), "kg", f"{best.malt.name} for the small mash", words=PRACTICE)


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
    """Which of the pantry's dried malt extracts takes its place."""
    if malt.cereal == "wheat":
        return "wheat"
    if _toasted(malt):
        return "amber"
    return "extra light" if malt.colour.unit == "°L" and malt.colour.number < PALE_LOVIBOND else "light"


def _extract_lines(kind: Sugar, parts: list[Value]) -> Iterator[Sugar]:
    """Malt extract for so much extract, some of it boiled whole and the rest stirred in late."""
    whole = sum_of(parts, f"extract that {kind.name} brings")
    held = potential(kind)
    mass = (whole / held).called(f"weight of {kind.name}")
    if mass.number < TOO_LITTLE_TO_PART_KG:
        yield replace(kind.weighing(settled(mass)), moment=BeforeTheEnd(LATE))
        return
    for share, moment in ((EARLY_SHARE, Stage.KETTLE), (LATE_SHARE, BeforeTheEnd(LATE))):
        part = (mass * share).called(f"weight of {kind.name}")
        yield replace(kind.weighing(settled(part)), moment=moment)
