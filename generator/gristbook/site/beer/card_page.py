"""What a card is given: the whole recipe on one side of A5 or of half a US letter, with blanks to write in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from gristbook.model.extra import Extra
from gristbook.model.moment import IN_THE_BEER, BeforePackaging
from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.ingredients import Ingredients, hop_when, ingredients, moment_of, sugar_time
from gristbook.site.beer.steps import rest_in_short, step_in_short
from gristbook.site.figures import Sentence, joined
from gristbook.site.prose import line
from gristbook.targets.advice.cautions import in_short
from gristbook.targets.figures import Plan
from gristbook.targets.method.lauter import sparge_heat
from gristbook.targets.method.step import spoken

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


LINES: Mapping[str, tuple[str, ...]] = {
    "Mash": ("heat", "mash", "drain"),
    "Sparge": ("sparge",),
    "Steep": ("steep",),
    "Boil": ("boil", "cool"),
}
"""The kinds of step that a line of the card is about, where something is to be minded."""

FULL = 19
"""From so many lines on, a card is set in smaller type."""


@dataclass(frozen=True, slots=True)
class CardPage:
    """A recipe as a card tells it; ``made`` is what its edition is.

    ``care`` has by its word what to mind at a line of what is done: what can maim or kill, and no more. ``blanks`` are
    the figures with room beside them to write what was measured.
    """

    brew: Brew
    title: Markup
    band: Band
    makes: Sentence
    ingredients: Ingredients
    doing: tuple[tuple[str, Sentence], ...]
    blanks: tuple[tuple[str, Value], ...]
    beer: Sentence
    care: Mapping[str, tuple[str, ...]]
    made: str

    paper: ClassVar[str] = "a5"
    """What templates ask for that were written when a card was for one paper only."""

    @property
    def dense(self) -> bool:
        """Whether there is so much on it that it needs smaller type."""
        goes = self.ingredients
        weighed = (goes.grist, goes.kits, goes.hops, goes.yeasts, goes.salts, goes.extras)
        return sum(map(len, weighed)) + len(self.doing) >= FULL


def card_page(brew: Brew, brewed_from: str = "", made: str = "") -> CardPage:
    """The card of one brew; ``brewed_from`` says what is not as it was written, ``made`` what its edition is."""
    plan, figures, sheet = brew.plan, brew.plan.figures, brew.plan.sheet
    doing = tuple(_doing(plan))
    return CardPage(
        brew=brew,
        title=line(plan.recipe.title),
        band=band(figures.colour.srm.number),
        makes=(figures.volumes.batch, f", in the {plan.brewhouse.name} brewhouse{brewed_from}"),
        ingredients=ingredients(plan),
        doing=doing,
        blanks=tuple((words, sheet[figure]) for figure, words in MEASURED if figure in sheet),
        beer=(figures.fermentation.abv, ", ", figures.bitterness.total, ", ", figures.colour.srm),
        care=_care(brew, [word for word, _ in doing]),
        made=made or f"as written, in the {plan.brewhouse.name} brewhouse",
    )


def _care(brew: Brew, doing: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """What is to be minded at each line, each once; what belongs to a line that is not there stands at the last."""
    there, said = {step.kind for step in brew.steps}, set[str]()
    found: dict[str, tuple[str, ...]] = {}
    for word in doing:
        kinds = there if word == doing[-1] else there.intersection(LINES.get(word, ()))
        found[word] = tuple(words for words in in_short(kinds, brew.plan) if words not in said)
        said.update(found[word])
    return found


def _doing(plan: Plan) -> Iterator[tuple[str, Sentence]]:
    """The brew in a few lines: a word and what is done."""
    recipe, figures = plan.recipe, plan.figures
    if figures.mash:
        rests = joined([rest_in_short(step) for step in recipe.mash], ", then ")
        yield "Mash", (figures.mash.water, " at ", figures.mash.strike, "; rest ", *rests)
        if figures.mash.sparge is not None:
            yield "Sparge", ("with ", figures.mash.sparge, " at ", sparge_heat(plan))
    steeped = [(f"{malt.name}, ", malt.steep) for malt in recipe.malts if malt.steep]
    if steeped:
        yield "Steep", joined([(name, steep.minutes, " at ", steep.temperature) for name, steep in steeped], "; ")
    boil = recipe.boil if recipe.boil.number else "none: raw" if recipe.raw else "only to the boil"
    yield "Boil", (boil, ", from ", figures.volumes.boil, *_into_the_boil(plan))
    if figures.volumes.top_up is not None:
        yield "Top up", ("with ", figures.volumes.top_up)
    if recipe.ferment:
        yield "Pitch", ("at ", recipe.pitched_at or "")
        yield "Ferment", joined([step_in_short(step) for step in recipe.ferment], ", then ")
    later = [*_later(plan)]
    if later:
        yield "Add", joined(later, "; ")
    packaging, wanted = figures.packaging, recipe.carbonation
    if packaging and packaging.sugar is not None and wanted and wanted.sugar:
        fresh = packaging.fresh_yeast
        yeast = (", with ", fresh, " of fresh dried yeast") if fresh is not None else ()
        yield "Prime", (packaging.sugar, f" of {spoken(wanted.sugar.name)} for ", packaging.volumes, *yeast)
    elif packaging:
        yield "Keg", ("to ", packaging.volumes)
    else:
        yield "Gas", ("none: still" if recipe.still else "none given, so no sugar goes in",)


def _into_the_boil(plan: Plan) -> Sentence:
    """The sugars that join late, by their time; hops and finings stand with their times among what is weighed."""
    joining: dict[float, tuple[Sentence, list[str]]] = {}
    for sugar in plan.recipe.sugars:
        if sugar.minutes is not None and not sugar.into_fermenter:
            _, names = joining.setdefault(sugar.minutes.number, (sugar_time(sugar), []))
            names.append(sugar.name)
    late = [(f"; {', '.join(dict.fromkeys(names))} ", *when) for when, names in joining.values()]
    return joined(late, "")


def _later(plan: Plan) -> Iterator[Sentence]:
    for sugar in plan.recipe.sugars:
        if sugar.into_fermenter:
            yield (f"{sugar.name} ", *sugar_time(sugar))
    for hop in plan.recipe.hops:
        if isinstance(hop.use, BeforePackaging) or hop.use in IN_THE_BEER:
            yield (f"{hop.name}, ", *hop_when(hop))
    for extra in plan.recipe.extras:
        if _is_late(extra):
            yield (f"{extra.name} ", *moment_of(extra))


def _is_late(extra: Extra) -> bool:
    return isinstance(extra.moment, BeforePackaging) or extra.moment in IN_THE_BEER
