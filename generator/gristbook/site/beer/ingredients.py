"""What goes in: the rows of the ingredient tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gristbook.model.amount import Named
from gristbook.model.extra import Extra
from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.moment import BeforePackaging, BeforeTheBoil, BeforeTheEnd, FirstWort, Stage, Stand
from gristbook.model.recipe import Malt, Sugar
from gristbook.model.water import Into, Treatment
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount, from_to
from gristbook.site.band import rgb
from gristbook.site.figures import Part, Sentence
from gristbook.site.words import capital, counted, grist_words, share_words
from gristbook.targets.advice.allergens import allergens
from gristbook.targets.advice.doses import dose_of
from gristbook.targets.advice.unreckoned import unreckoned
from gristbook.targets.beer.pitching import first
from gristbook.targets.buying.ingredients import tint
from gristbook.targets.figures import Plan
from gristbook.targets.method.mash import A_DROP
from gristbook.targets.results import Figures, Grist, HopFigures, MaltFigures, Pitch, SugarFigures, YeastFigures

INTO: Mapping[Into, str] = {
    "water": "into all the water",
    "mash": "in the mash",
    "sparge": "in the sparge water",
    "kettle": "in the kettle",
}
"""Where a salt or an acid goes, in words."""


AT_THE_END: Sentence = ("as the heat goes off",)
"""When a thing goes in that is not boiled at all."""


@dataclass(frozen=True, slots=True)
class GristRow:
    """A malt, a sugar or a malt extract; ``item`` is what it is called, by whom.

    ``tint`` is the colour of a beer with a tenth of it, ``percent`` its share of the bar that shows the whole.
    """

    mass: Value
    name: str
    item: Named
    note: Sentence
    share: Value
    extract_share: Value
    colour: Value | None
    tint: str
    percent: float


@dataclass(frozen=True, slots=True)
class ExtraRow:
    """A fining, a spice, a salt; ``amount`` is empty where the author gave none.

    ``dose`` is how much of it that is in a litre, and how much is usual.
    """

    amount: Sentence
    name: str
    moment: Sentence
    purpose: str
    dose: Sentence = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Ingredients:
    """All that is weighed or poured for one brew; with each yeast, what it brings.

    ``called`` is what the list of all that brings extract is called, ``compared`` how its shares are compared;
    ``unreckoned`` says what no figure counts.
    """

    water: Sentence
    called: str
    compared: str
    grist: tuple[GristRow, ...]
    kits: tuple[Sentence, ...]
    hops: tuple[HopFigures, ...]
    yeasts: tuple[tuple[YeastFigures, Sentence], ...]
    salts: tuple[ExtraRow, ...]
    extras: tuple[ExtraRow, ...]
    allergens: str
    unreckoned: tuple[Sentence, ...]


def ingredients(plan: Plan) -> Ingredients:
    """The ingredient tables of a plan."""
    recipe, figures, pitch = plan.recipe, plan.figures, plan.figures.pitch
    return Ingredients(
        _water(figures),
        grist_words(figures.grist),
        share_words(figures.grist),
        tuple(_grist(figures.grist)),
        tuple(map(_kit, recipe.kits)),
        figures.bitterness.hops,
        tuple((line, _brings(line, pitch)) for line in pitch.yeasts) if pitch else (),
        tuple(_for_the_water(recipe.water)),
        tuple(_extra(it, plan) for it in recipe.extras),
        allergens(plan).words,
        tuple(unreckoned(plan)),
    )


def hop_when(hop: Hop) -> Sentence:
    """When an addition goes in, in the trade's words, and in the author's own where he has one."""
    role, stand = f"{hop.called}: " if hop.called else "", f"{hop.called or 'stand'} "
    match hop.use:
        case FirstWort():
            return (role, "first wort")
        case Stage():
            return (hop.called,)
        case BeforePackaging(days, heat):
            return (f"{role}dry, the last ", days, *((" at ", heat) if heat else ()))
        case BeforeTheEnd(minutes):
            return (f"{role}boil ", minutes) if minutes.number else (role, *AT_THE_END)
        case Stand(minutes, start, end, None) if start.number == end.number:
            return (stand, minutes, " at ", start)
        case Stand(minutes, start, end, None):
            return (stand, minutes, " from ", start, " to ", end)
        case Stand(minutes, start, end):
            return (stand, minutes, ", cooling by itself from ", start, " to ", end)


def sugar_time(sugar: Sugar) -> Sentence:
    """When a sugar or an extract goes in."""
    if isinstance(sugar.moment, Stage) and sugar.into_fermenter:
        return (sugar.moment.value,)
    if sugar.days is not None:
        return "into the fermenter, ", sugar.days, " before packaging"
    if sugar.minutes is None:
        return ("from the start of the boil",)
    return ("for the last ", sugar.minutes, " of the boil") if sugar.minutes.number else AT_THE_END


def moment_of(extra: Extra) -> Sentence:
    """When a fining or a spice goes in; nothing where the author does not say."""
    match extra.moment:
        case BeforeTheEnd(minutes):
            return (amount(minutes), " before the end of the boil") if minutes.number else AT_THE_END
        case BeforePackaging(days):
            stage = extra.moment_written.rpartition(", ")[2] if ", " in extra.moment_written else ""
            return amount(days), " before packaging", *((f", {stage}",) if stage else ())
        case None:
            return ()
    return (extra.moment_written or extra.moment.value,)


def extra_amount(extra: Extra) -> Sentence:
    """How much of a fining or a spice: as the author wrote it where it is counted; nothing where nobody says."""
    if extra.amount is not None and extra.amount.unit != "pieces":
        return (extra.amount,)
    return (extra.written,) if extra.written else ()


def _extra(extra: Extra, plan: Plan) -> ExtraRow:
    purpose = "; ".join(part for part in (extra.said, extra.purpose) if part)
    dose = dose_of(extra, plan.recipe.batch)
    told = (amount(dose[0]), ", and up to ", amount(dose[1]), " is usual") if dose else ()
    return ExtraRow(extra_amount(extra), extra.name, moment_of(extra), purpose, told, extra.note)


def _water(figures: Figures) -> Sentence:
    parts: list[Part] = [figures.water.total, " of water in all"]
    uses = (
        (figures.mash.water if figures.mash else None, "for the mash"),
        (figures.mash.sparge if figures.mash else None, "for the sparge"),
        (figures.water.steep, "for the steep"),
        (figures.volumes.top_up, "to top up"),
    )
    for volume, purpose in uses:
        if volume is not None:
            parts += [": " if len(parts) == 2 else ", ", volume, f" {purpose}"]
    used = sum(volume.number for volume, _ in uses if volume is not None)
    return (*parts, ", the rest into the kettle." if 0 < used < figures.water.total.number - A_DROP else ".")


def _grist(grist: Grist) -> Iterator[GristRow]:
    for line in grist.malts:
        steep = line.malt.steep
        note = ("steeped ", steep.minutes, " at ", steep.temperature) if steep else ()
        yield _row(line, line.malt, note, line.colour)
    for it in grist.sugars:
        sugar = it.sugar
        when: Sentence = sugar_time(sugar)
        colour = sugar.colour if sugar.flesh is None else None  # nobody has a fruit's in a beer
        if sugar.flesh is not None:
            said = f", {sugar.flesh.said}" if sugar.flesh.said else ""
            when = (*when, f"{said}, with ", it.extract, " of sugar")
        yield _row(it, sugar, when, colour)


def _row(line: MaltFigures | SugarFigures, item: Malt | Sugar, note: Sentence, colour: Value | None) -> GristRow:
    shares = line.share_by_weight, line.share_by_extract
    shown = rgb(round(tint(colour, item.name).number, 2)) if colour else ""
    return GristRow(line.mass, item.name, _named(item), note, *shares, colour, shown, round(100 * shares[0].number, 2))


def _named(item: Named) -> Named:
    return Named(item.name, own_words=item.own_words, assumed=item.assumed, note=item.note)


def _kit(kit: HoppedKit) -> Sentence:
    if kit.tins == 1:
        return f"{kit.name} brings ", kit.bitterness, " in ", kit.volume, ", by its label."
    return (
        f"{capital(counted(kit.tins))} tins of {kit.name} bring ",
        kit.bitterness,
        " in ",
        kit.volume,
        ", by their labels.",
    )


def _brings(line: YeastFigures, pitch: Pitch) -> Sentence:
    """What a yeast brings to the wort, or when it goes in that is not pitched."""
    yeast = line.yeast
    if yeast.bacteria and not isinstance(yeast.moment, BeforeTheBoil):
        return ("bacteria: the acid that they make is not reckoned",)
    match yeast.moment:
        case BeforeTheBoil(days, heat, ph):
            sours = "in the kettle before the boil, for ", days, *((" at ", heat) if heat else ())
            sours = *sours, *((", to pH ", ph) if ph else ())
            return (*sours, ": the acid that it makes is not reckoned")
        case BeforePackaging(days):
            return "later, for the last ", days, " before packaging"
        case Stage.PACKAGING:
            return ("at bottling",)
        case Stage():
            return ("later, after the first fermentation",)
    if line.dose is not None:
        low, high = (sum(ends) for ends in zip(*(it.cells.ends for it in first(pitch)), strict=True))
        enough = "enough" if low >= pitch.cells.number else "enough by weight"
        if high < pitch.cells.number:
            enough = "too little"
        cells = from_to(*line.cells.ends, line.cells.unit)
        return line.dose, ", ", cells, ", by strain; the wort wants ", pitch.cells, f": {enough}"
    grown = (" after a starter of ", yeast.starter) if yeast.starter is not None else ()
    rate = (", a pitch rate of ", line.rate, ", where ", pitch.rate, " is wanted") if line.rate is not None else ()
    return "about ", line.cells, *grown, *rate


def _for_the_water(treatment: Treatment) -> Iterator[ExtraRow]:
    for dilution in treatment.dilutions:
        yield ExtraRow(
            (dilution.amount.value,), dilution.water.name, ("in place of some of the water",), "", note=dilution.note
        )
    for salt in treatment.salts:
        yield ExtraRow((salt.mass,), salt.name, (INTO[salt.into],), salt.purpose, note=salt.note)
    for acid in treatment.acids:
        yield ExtraRow((acid.volume,), acid.name, (INTO[acid.into],), acid.purpose, note=acid.note)
