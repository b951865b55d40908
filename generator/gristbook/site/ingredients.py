"""What goes in: the rows of the ingredient tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stand
from gristbook.model.recipe import Extra, Hop, HoppedKit, Sugar
from gristbook.model.water import Into, Treatment
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, from_to
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.site.words import kept_words
from gristbook.targets.allergens import allergens
from gristbook.targets.figures import Figures, HopFigures, MaltFigures, Pitch, Plan, SugarFigures, YeastFigures

INTO: Mapping[Into, str] = {
    "water": "into all the water",
    "mash": "in the mash",
    "sparge": "in the sparge water",
    "kettle": "in the kettle",
}
"""Where a salt or an acid goes, in words."""


@dataclass(frozen=True, slots=True)
class GristRow:
    """A malt, a sugar or a malt extract."""

    mass: Figure
    name: str
    note: Sentence
    share: Figure
    extract_share: Figure
    colour: Figure


@dataclass(frozen=True, slots=True)
class HopRow:
    """An addition of hops: what is weighed, when it goes in, and what becomes of its bitterness."""

    mass: Figure
    name: str
    form: str
    when: Sentence
    alpha: Figure
    alpha_note: str
    alpha_left: Figure | None
    minutes: Figure | None
    utilisation: Figure | None
    bitterness: Figure
    kept: str


@dataclass(frozen=True, slots=True)
class YeastRow:
    """A yeast and what it brings."""

    amount: Figure
    name: str
    form: str
    brings: Sentence
    temperatures: Amount


@dataclass(frozen=True, slots=True)
class ExtraRow:
    """A fining, a spice, a salt; ``amount`` is empty where the author gave none."""

    amount: Sentence
    name: str
    moment: Sentence
    purpose: str


@dataclass(frozen=True, slots=True)
class Ingredients:
    """All that is weighed or poured for one brew."""

    water: Sentence
    grist: tuple[GristRow, ...]
    kits: tuple[Sentence, ...]
    hops: tuple[HopRow, ...]
    yeasts: tuple[YeastRow, ...]
    salts: tuple[ExtraRow, ...]
    extras: tuple[ExtraRow, ...]
    allergens: str


def ingredients(plan: Plan, shown: Shown) -> Ingredients:
    """The ingredient tables of a plan."""
    recipe, figures = plan.recipe, plan.figures
    return Ingredients(
        _water(figures, shown),
        (
            *(_malt(line, shown) for line in figures.grist.malts),
            *(_sugar(line, shown) for line in figures.grist.sugars),
        ),
        tuple(_kit(kit, shown) for kit in recipe.kits),
        tuple(_hop(line, shown) for line in figures.bitterness.hops),
        tuple(_yeasts(figures.pitch, shown)) if figures.pitch else (),
        tuple(_for_the_water(recipe.water, shown)),
        tuple(_extra(extra, shown) for extra in recipe.extras),
        allergens(plan).words,
    )


def hop_when(hop: Hop, shown: Shown) -> Sentence:
    """When an addition goes in, in the trade's words."""
    match hop.use:
        case FirstWort():
            return ("first wort",)
        case BeforePackaging(days):
            return shown.say("dry, the last ", days)
        case BeforeTheEnd(minutes):
            return shown.say("boil ", minutes)
        case Stand(minutes, start, end, None) if start.number == end.number:
            return shown.say("stand ", minutes, " at ", start)
        case Stand(minutes, start, end, None):
            return shown.say("stand ", minutes, " from ", start, " to ", end)
        case Stand(minutes, start, end):
            return shown.say("stand ", minutes, ", cooling by itself from ", start, " to ", end)


def sugar_time(sugar: Sugar, shown: Shown) -> Sentence:
    """When a sugar or an extract goes in."""
    if sugar.into_fermenter:
        days = shown.say(", ", sugar.days, " before packaging") if sugar.days else ()
        return ("into the fermenter", *days)
    if sugar.minutes is None:
        return ("from the start of the boil",)
    if sugar.minutes.number == 0:
        return ("as the heat goes off",)
    return shown.say("for the last ", sugar.minutes, " of the boil")


def moment_of(extra: Extra) -> Sentence:
    """When a fining or a spice goes in; nothing where the author does not say."""
    match extra.moment:
        case BeforeTheEnd(minutes):
            return amount(minutes), " before the end of the boil"
        case BeforePackaging(days):
            return amount(days), " before packaging"
        case None:
            return ()
    return (extra.moment.value,)


def _water(figures: Figures, shown: Shown) -> Sentence:
    parts: list[str | Value] = [figures.water.total, " of water in all"]
    uses = [
        (figures.mash.water, "for the mash") if figures.mash else None,
        (figures.mash.sparge, "for the sparge") if figures.mash and figures.mash.sparge else None,
        (figures.water.steep, "for the steep") if figures.water.steep else None,
        (figures.volumes.top_up, "to top up") if figures.volumes.top_up else None,
    ]
    named = [use for use in uses if use]
    for count, (volume, purpose) in enumerate(named):
        parts += [": " if count == 0 else ", ", volume, f" {purpose}"]
    return shown.say(*parts, ".")


def _malt(line: MaltFigures, shown: Shown) -> GristRow:
    steep = line.malt.steep
    note = shown.say("steeped ", steep.minutes, " at ", steep.temperature) if steep else ()
    return GristRow(
        shown(line.mass),
        line.malt.name,
        note,
        shown(line.share_by_weight),
        shown(line.share_by_extract),
        shown(line.colour),
    )


def _sugar(line: SugarFigures, shown: Shown) -> GristRow:
    return GristRow(
        shown(line.mass),
        line.sugar.name,
        sugar_time(line.sugar, shown),
        shown(line.share_by_weight),
        shown(line.share_by_extract),
        shown(line.sugar.colour),
    )


def _kit(kit: HoppedKit, shown: Shown) -> Sentence:
    return shown.say(f"{kit.name} brings ", kit.bitterness, " in ", kit.volume, ", by its label.")


def _hop(line: HopFigures, shown: Shown) -> HopRow:
    hop = line.hop
    return HopRow(
        shown(line.mass),
        hop.name,
        "whole" if hop.whole else "pellets",
        hop_when(hop, shown),
        shown(hop.alpha),
        "typical of the variety: look at the packet" if hop.alpha_assumed else "",
        shown(line.alpha) if line.alpha is not hop.alpha else None,
        shown(line.minutes) if line.minutes is not None else None,
        shown(line.utilisation) if line.utilisation is not None else None,
        shown(line.bitterness),
        kept_words(hop),
    )


def _yeasts(pitch: Pitch, shown: Shown) -> Iterator[YeastRow]:
    for line in pitch.yeasts:
        yield _yeast(line, pitch.rate, shown)


def _yeast(line: YeastFigures, wanted: Value, shown: Shown) -> YeastRow:
    yeast = line.yeast
    cells = shown.say("about ", line.cells)
    if line.rate is not None:
        cells += shown.say(", a pitch rate of ", line.rate, ", where ", wanted, " is wanted")
    return YeastRow(
        shown(line.amount),
        yeast.name,
        "dried" if yeast.dried else "liquid",
        (*shown.say(line.dose), ", ", *cells) if line.dose is not None else cells,
        from_to(yeast.coolest_c, yeast.warmest_c, "°C"),
    )


def _for_the_water(treatment: Treatment, shown: Shown) -> Iterator[ExtraRow]:
    for dilution in treatment.dilutions:
        yield ExtraRow(shown.say(dilution.amount.value), dilution.water.name, ("in place of some of the water",), "")
    for salt in treatment.salts:
        yield ExtraRow(shown.say(salt.mass), salt.name, (INTO[salt.into],), salt.purpose)
    for acid in treatment.acids:
        yield ExtraRow(shown.say(acid.volume), acid.name, (INTO[acid.into],), acid.purpose)


def _extra(extra: Extra, shown: Shown) -> ExtraRow:
    return ExtraRow(extra_amount(extra, shown), extra.name, moment_of(extra), extra.purpose)


def extra_amount(extra: Extra, shown: Shown) -> Sentence:
    """How much of a fining or a spice: as the author wrote it where it is counted; nothing where nobody says."""
    if extra.amount is not None and extra.amount.unit != "pieces":
        return (shown(extra.amount),)
    return (extra.written,) if extra.written else ()
