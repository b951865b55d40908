"""Which things of the pantry a book has pages of: those that a beer uses, as it is written or in an edition."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gristbook.model.book import Book
from gristbook.model.larder import Ingredient
from gristbook.model.recipe import HOPPED
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors
from gristbook.site.brews import Beer, Brew
from gristbook.site.figures import Sentence, Shown, joined
from gristbook.site.ingredients import extra_amount, hop_when, moment_of, sugar_time
from gristbook.site.pages import ingredient_path
from gristbook.site.working import values_in
from gristbook.targets.figures import Plan
from gristbook.targets.ingredients import Sheet, sheet_of


@dataclass(frozen=True, slots=True)
class Stocked:
    """A thing that the book uses: its page, what is worked out of it, and the brews that it goes into.

    ``brews`` are the beers as they are written, with no words; an edition, with its own, where its beer is otherwise
    brewed without the thing.
    """

    ingredient: Ingredient
    path: str
    sheet: Sheet
    brews: tuple[tuple[Brew, str], ...]


def stocked(book: Book, beers: Sequence[Beer]) -> tuple[Stocked, ...]:
    """Everything that the book uses, in the pantry's order."""
    found, names = [], Anchors("index")
    for it in book.larder:
        brews = tuple(brew for beer in beers for brew in _brews(it, beer))
        if brews:
            path = ingredient_path(names.take(it.name))
            found.append(Stocked(it, path, sheet_of(it, book.colour_model), brews))
    return tuple(found)


def paths(things: Sequence[Stocked]) -> Mapping[str, str]:
    """The page of each thing by its name in the pantry, of an extract by that of a hopped tin of it too."""
    hopped = {f"{it.ingredient.name}{HOPPED}": it.path for it in things if it.ingredient.shelf == "extracts"}
    return hopped | {thing.ingredient.name: thing.path for thing in reversed(things)}


def values_of(things: Sequence[Stocked]) -> Iterator[Value]:
    """Everything whose working the pages of these things show."""
    for thing in things:
        yield from values_in(thing.sheet)


def _brews(it: Ingredient, beer: Beer) -> Iterator[tuple[Brew, str]]:
    if _goes_into(it, beer.home.plan):
        yield beer.home, ""
        return
    for edition in beer.editions:
        if _goes_into(it, edition.brew.plan):
            yield edition.brew, edition.words


def _goes_into(it: Ingredient, plan: Plan) -> bool:
    """Whether a brew uses it; the same as asking for how it is used, without printing a number."""
    recipe = plan.recipe
    if it.shelf == "malts":
        return any(malt.name == it.name for malt in recipe.malts)
    if it.shelf in ("sugars", "extracts"):
        from_malt = it.shelf == "extracts"
        used = any(sugar.pantry_name == it.name and sugar.from_malt == from_malt for sugar in recipe.sugars)
        return used or (not from_malt and _primes(it, plan))
    if it.shelf == "hops":
        return any(hop.name == it.name for hop in recipe.hops)
    if it.shelf == "yeasts":
        return any(it.name in yeast.families for yeast in recipe.yeasts)
    return any(extra.name == it.name for extra in recipe.extras)


def _primes(it: Ingredient, plan: Plan) -> bool:
    gas = plan.recipe.carbonation
    return gas is not None and gas.sugar is not None and gas.sugar.name == it.name


def uses(it: Ingredient, plan: Plan, shown: Shown) -> tuple[Sentence, ...]:
    """How much of it goes into a brew, and when: a sentence for each line of the recipe."""
    figures = plan.figures
    if it.shelf == "malts":
        malts = (line for line in figures.grist.malts if line.malt.name == it.name)
        return tuple(shown.say(line.mass, ", ", line.share_by_weight, " of the grist") for line in malts)
    if it.shelf in ("sugars", "extracts"):
        return (*_dissolved(it, plan, shown), *_priming(it, plan, shown))
    if it.shelf == "hops":
        hops = (line for line in figures.bitterness.hops if line.hop.name == it.name)
        return tuple((*shown.say(line.mass, ", "), *hop_when(line.hop, shown)) for line in hops)
    if it.shelf == "yeasts":
        yeasts = (line for line in (figures.pitch.yeasts if figures.pitch else ()) if it.name in line.yeast.families)
        return tuple(shown.say(line.amount, ", dried" if line.yeast.dried else ", liquid") for line in yeasts)
    extras = (extra for extra in plan.recipe.extras if extra.name == it.name)
    return tuple(joined([part for part in (extra_amount(e, shown), moment_of(e)) if part], ", ") for e in extras)


def _dissolved(it: Ingredient, plan: Plan, shown: Shown) -> Iterator[Sentence]:
    for line in plan.figures.grist.sugars:
        if line.sugar.pantry_name == it.name and line.sugar.from_malt == (it.shelf == "extracts"):
            hopped = ", hopped" if line.sugar.label else ""
            mass = shown.say(line.mass, f"{hopped}, ", line.share_by_weight, " of the grist, ")
            yield (*mass, *sugar_time(line.sugar, shown))


def _priming(it: Ingredient, plan: Plan, shown: Shown) -> Iterator[Sentence]:
    packaging = plan.figures.packaging
    if it.shelf in ("sugars", "extracts") and packaging and packaging.sugar is not None and _primes(it, plan):
        yield shown.say(packaging.sugar, ", to prime the bottles")
