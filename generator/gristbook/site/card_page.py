"""What the cards are given: the whole recipe on one side of A5 or of half a US letter, with blanks to write in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.model.moment import BeforePackaging, Stage
from gristbook.model.recipe import Extra, MashStep
from gristbook.site.band import Band, band
from gristbook.site.brews import Brew
from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.site.ingredients import Ingredients, hop_when, ingredients, moment_of, sugar_time
from gristbook.site.prose import line
from gristbook.site.stamp import Stamp, stamp
from gristbook.targets.cautions import in_short
from gristbook.targets.figures import Plan
from gristbook.targets.packets import PacketRow

A5, HALF_LETTER = PAPERS = ("a5", "half-letter")

MEASURED = (
    ("strike-temperature", "Strike water"),
    ("gravity-before-the-boil", "Gravity before the boil"),
    ("boil-volume", "Wort before the boil, cool"),
    ("volume-at-the-end-of-the-boil", "Wort after the boil, cool"),
    ("original-gravity", "Original gravity"),
    ("into-the-fermenter", "Into the fermenter"),
    ("final-gravity", "Final gravity"),
    ("beer-to-package", "Packaged"),
)
"""What a brewer measures, by the figure it is held against."""


@dataclass(frozen=True, slots=True)
class Blank:
    """A figure and the room to write beside it what was measured."""

    name: str
    figure: Figure


FULL = 20
"""From so many lines on, a card is set in smaller type."""


@dataclass(frozen=True, slots=True)
class Cell:
    """What a packet of hops may say, and what is weighed from it."""

    alpha: Figure
    mass: Figure
    planned: bool


@dataclass(frozen=True, slots=True)
class HopLine:
    """An addition of hops by the packet in hand."""

    name: str
    when: Sentence
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class CardPage:
    """A recipe as a card tells it; ``paper`` is "a5" or "half-letter", ``other`` the card for the other paper."""

    title: Markup
    summary: Markup
    band: Band
    makes: Sentence
    ingredients: Ingredients
    packets: tuple[HopLine, ...]
    doing: tuple[tuple[str, Sentence], ...]
    blanks: tuple[Blank, ...]
    beer: Sentence
    cautions: tuple[str, ...]
    stamp: Stamp
    recipe: str
    paper: str
    other: str

    @property
    def dense(self) -> bool:
        """Whether there is so much on it that it needs smaller type."""
        goes = self.ingredients
        weighed = (goes.grist, goes.kits, goes.hops, goes.yeasts, goes.salts, goes.extras)
        return sum(map(len, weighed)) + len(self.doing) >= FULL


def card_page(brew: Brew, paper: str, brewed_from: str = "", made: str = "") -> CardPage:
    """The card of one brew; ``brewed_from`` says what is not as it was written, ``made`` what its edition is."""
    plan, at = brew.plan, brew.at
    here, other = (at.card, at.half_letter) if paper == A5 else (at.half_letter, at.card)
    shown = brew.shown(here)
    recipe, figures, sheet = plan.recipe, plan.figures, plan.sheet
    return CardPage(
        title=line(recipe.title),
        summary=line(recipe.summary),
        band=band(recipe.slug, figures.colour.srm.number),
        makes=shown.say(figures.volumes.batch, f", in the {plan.brewhouse.name} brewhouse{brewed_from}"),
        ingredients=ingredients(plan, shown),
        packets=tuple(_packets(brew.packets, shown)),
        doing=tuple(_doing(plan, shown)),
        blanks=tuple(Blank(words, shown(sheet[figure])) for figure, words in MEASURED if figure in sheet),
        beer=shown.say(figures.fermentation.abv, ", ", figures.bitterness.total, ", ", figures.colour.srm),
        cautions=in_short({step.kind for step in brew.steps}, plan),
        stamp=stamp(plan, brew.mark, made),
        recipe=at.page,
        paper=paper,
        other=other,
    )


def _packets(rows: Sequence[PacketRow], shown: Shown) -> Iterator[HopLine]:
    for row in rows:
        cells = tuple(Cell(shown(it.alpha), shown(it.mass), it.planned) for it in row.packets)
        yield HopLine(row.hop.name, hop_when(row.hop, shown), cells)


def _doing(plan: Plan, shown: Shown) -> Iterator[tuple[str, Sentence]]:
    """The brew in a few lines: a word and what is done."""
    recipe, figures = plan.recipe, plan.figures
    if figures.mash:
        heat = shown.say(figures.mash.water, " at ", figures.mash.strike)
        yield "Mash", (*heat, "; rest ", *joined([_rest(step, shown) for step in recipe.mash], ", then "))
        if figures.mash.sparge is not None:
            yield "Sparge", shown.say("with ", figures.mash.sparge)
    steeps = [
        shown.say(f"{malt.name}, ", malt.steep.minutes, " at ", malt.steep.temperature)
        for malt in recipe.malts
        if malt.steep
    ]
    if steeps:
        yield "Steep", joined(steeps, "; ")
    yield "Boil", (*shown.say(recipe.boil, ", from ", figures.volumes.boil), *_into_the_boil(plan, shown))
    if figures.volumes.top_up is not None:
        yield "Top up", shown.say("with ", figures.volumes.top_up)
    if recipe.ferment:
        yield "Pitch", shown.say("at ", recipe.ferment[0].temperature)
        held = [shown.say(step.days, " at ", step.temperature) for step in recipe.ferment]
        yield "Ferment", joined(held, ", then ")
    later = [*_later(plan, shown)]
    if later:
        yield "Add", joined(later, "; ")
    packaging = figures.packaging
    if packaging and packaging.sugar is not None:
        yield "Prime", shown.say(packaging.sugar, " for ", packaging.volumes)
    elif packaging:
        yield "Keg", shown.say("to ", packaging.volumes)


def _rest(step: MashStep, shown: Shown) -> Sentence:
    return shown.say(step.minutes, " at ", step.temperature)


def _into_the_boil(plan: Plan, shown: Shown) -> Sentence:
    """The sugars that join late, by their time; hops and finings stand with their times among what is weighed."""
    joining: dict[float, tuple[Sentence, list[str]]] = {}
    for sugar in plan.recipe.sugars:
        if sugar.minutes is not None and not sugar.into_fermenter:
            _, names = joining.setdefault(sugar.minutes.number, (sugar_time(sugar, shown), []))
            names.append(sugar.name)
    late = [(f"; {', '.join(dict.fromkeys(names))} ", *when) for when, names in joining.values()]
    return joined(late, "")


def _later(plan: Plan, shown: Shown) -> Iterator[Sentence]:
    for sugar in plan.recipe.sugars:
        if sugar.into_fermenter:
            yield (f"{sugar.name} ", *sugar_time(sugar, shown))
    for hop in plan.recipe.hops:
        if isinstance(hop.use, BeforePackaging):
            yield (f"{hop.name}, ", *hop_when(hop, shown))
    for extra in plan.recipe.extras:
        if _is_late(extra):
            yield (f"{extra.name} ", *moment_of(extra))


AFTER_THE_BOIL = (Stage.YEAST, Stage.FERMENTER, Stage.FERMENTED, Stage.PACKAGING)


def _is_late(extra: Extra) -> bool:
    return isinstance(extra.moment, BeforePackaging) or extra.moment in AFTER_THE_BOIL
