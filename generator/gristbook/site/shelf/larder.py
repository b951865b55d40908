"""Which things of the pantry a book has pages of: those that a beer uses, as it is written or in an edition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gristbook.model.book import Book
from gristbook.model.larder import Ingredient
from gristbook.model.recipe import HOPPED
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors
from gristbook.site.beer.ingredients import extra_amount, hop_when, moment_of, sugar_time
from gristbook.site.beer.known import Known
from gristbook.site.figures import Sentence, joined
from gristbook.site.pages import ingredient_path
from gristbook.site.words import grist_words
from gristbook.site.working.walk import values_in
from gristbook.targets.buying.alternatives import StandIn, stand_ins
from gristbook.targets.buying.ingredients import Sheet, sheet_of
from gristbook.targets.figures import Plan
from gristbook.targets.results import Grist


@dataclass(frozen=True, slots=True)
class Stocked:
    """A thing that the book uses: its page, what is worked out of it, and the brews that it goes into.

    ``instead`` is what can stand in for it. ``brews`` are the beers as they are written, with no edition; an edition,
    by its address, where its beer is otherwise brewed without the thing.
    """

    ingredient: Ingredient
    path: str
    sheet: Sheet
    instead: tuple[StandIn, ...]
    brews: tuple[tuple[Known, str], ...]


def stocked(book: Book, beers: Sequence[Known]) -> tuple[Stocked, ...]:
    """Everything that the book uses, in the pantry's order."""
    found, names = [], Anchors("index")
    holding: dict[str, list[Known]] = {}
    for beer in beers:
        for name in beer.ask(_goes_in):
            holding.setdefault(name, []).append(beer)
    for it in book.larder:
        asked = it.shelf, it.name
        brews = tuple((beer, edition) for beer in holding.get(it.name, ()) for edition in beer.ask(_used_in, *asked))
        if brews:
            path = ingredient_path(names.take(it.name))
            found.append(Stocked(it, path, sheet_of(it, book.colour_model), stand_ins(it, book.larder), brews))
    return tuple(found)


def paths(things: Sequence[Stocked]) -> Mapping[str, str]:
    """The page of each thing by its name in the pantry, of an extract by that of a hopped tin of it too."""
    hopped = {f"{it.ingredient.name}{HOPPED}": it.path for it in things if it.ingredient.shelf == "extracts"}
    return hopped | {thing.ingredient.name: thing.path for thing in reversed(things)}


def names_of(stock: Sequence[Stocked]) -> Mapping[str, tuple[str, ...]]:
    """The names of what can stand in for everything that the book uses, by its own in the pantry."""
    return {it.ingredient.name: tuple(one.other.name for one in it.instead) for it in reversed(stock)}


def values_of(things: Sequence[Stocked]) -> Iterator[Value]:
    """Everything whose working the pages of these things show."""
    for thing in things:
        yield from values_in(thing.sheet)


def _goes_in(it: Known) -> frozenset[str]:
    return frozenset(name for brew in it.beer.brews() for name in _names_in(brew.plan))


def _used_in(it: Known, shelf: str, name: str) -> tuple[str, ...]:
    """The editions that a thing goes into: "" for the recipe as it is written, which stands for all of them."""
    if uses(shelf, name, it.plan):
        return ("",)
    return tuple(one.made.edition.slug for one in it.beer.editions if uses(shelf, name, one.brew.plan))


def _names_in(plan: Plan) -> Iterator[str]:
    """Whatever goes into a brew, by its name in the pantry."""
    recipe, figures = plan.recipe, plan.figures
    yield from (line.malt.name for line in figures.grist.malts)
    yield from (line.sugar.pantry_name for line in figures.grist.sugars)
    yield from (line.hop.name for line in figures.bitterness.hops)
    yield from (line.yeast.name for line in (figures.pitch.yeasts if figures.pitch else ()))
    yield from (extra.name for extra in recipe.extras)
    if recipe.carbonation and recipe.carbonation.sugar:
        yield recipe.carbonation.sugar.name


def uses(shelf: str, name: str, plan: Plan) -> tuple[Sentence, ...]:
    """How much of a thing goes into a brew, and when: a sentence for each line of it; none where it is not used."""
    figures = plan.figures
    if shelf == "malts":
        malts = (line for line in figures.grist.malts if line.malt.name == name)
        return tuple((line.mass, ", ", line.share_by_weight, _of(figures.grist)) for line in malts)
    if shelf in ("sugars", "fruits", "extracts"):
        return (*_dissolved(shelf, name, plan), *_priming(name, plan))
    if shelf == "hops":
        hops = (line for line in figures.bitterness.hops if line.hop.name == name)
        return tuple((line.mass, ", ", *hop_when(line.hop)) for line in hops)
    if shelf == "yeasts":
        yeasts = (line for line in (figures.pitch.yeasts if figures.pitch else ()) if name == line.yeast.name)
        return tuple((line.amount, f", {line.yeast.form}") for line in yeasts)
    extras = (extra for extra in plan.recipe.extras if extra.name == name)
    return tuple(joined([part for part in (extra_amount(e), moment_of(e)) if part], ", ") for e in extras)


def _dissolved(asked: str, name: str, plan: Plan) -> Iterator[Sentence]:
    for line in plan.figures.grist.sugars:
        shelf = "extracts" if line.sugar.from_malt else "fruits" if line.sugar.flesh else "sugars"
        if line.sugar.pantry_name == name and shelf == asked:
            hopped = ", hopped, " if line.sugar.label else ", "
            yield line.mass, hopped, line.share_by_weight, f"{_of(plan.figures.grist)}, ", *sugar_time(line.sugar)


def _of(grist: Grist) -> str:
    called = grist_words(grist)
    return f" of {called[:1].lower()}{called[1:]}"


def _priming(name: str, plan: Plan) -> Iterator[Sentence]:
    packaging, gas = plan.figures.packaging, plan.recipe.carbonation
    if packaging and packaging.sugar is not None and gas and gas.sugar and gas.sugar.name == name:
        yield packaging.sugar, ", to prime the bottles"
