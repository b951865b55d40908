"""What the page of an ingredient is given: what it is, its numbers, where it is used, and what can stand in for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.larder import Ingredient
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, from_to
from gristbook.site.band import Band, band
from gristbook.site.brews import Brew
from gristbook.site.figures import Figure, Sentence, Shown, unlinked
from gristbook.site.ingredient_words import NUMBERS, RANGES, brewers_words, what_it_is
from gristbook.site.larder import Stocked, uses
from gristbook.site.pages import INGREDIENTS, Link
from gristbook.site.prose import line
from gristbook.site.shelves_page import shelf_of, words_of
from gristbook.site.terms import Uses
from gristbook.site.words import capital, colour_word
from gristbook.site.working import Working, values_in, working
from gristbook.targets.allergens import gathered
from gristbook.targets.alternatives import stand_ins
from gristbook.targets.ingredients import SIX_MONTHS, WHOLE_GRIST, Sheet, Tint

SECTIONS = ("the-beers-that-use-it", "the-numbers", "what-follows", "what-can-stand-in", "table-of-uses")
"""The anchors of the page, which no number of its working takes."""

POTENTIAL = (
    "Fine grind is what this book reckons with: the mash efficiency holds all that a coarser mill leaves behind. "
    "The last two are the fine grind in the trade’s other ways."
)
KEEPING = "Whole cones lose more than pellets; an open packet in the warm loses most of all."
AGEING = (
    "A guide, and no more: makers state what lives after a month, and nothing is known beyond. Two packs of one age "
    "differ; a starter tells. Dried yeast keeps far longer, by the date on its packet."
)


@dataclass(frozen=True, slots=True)
class Number:
    """A figure of the pantry, or only its low and high, and who says so."""

    label: str
    figure: Figure | None
    span: Amount | None
    source: str


@dataclass(frozen=True, slots=True)
class Result:
    """A figure that follows from the pantry's."""

    label: str
    figure: Figure


@dataclass(frozen=True, slots=True)
class Results:
    """Figures that belong in one table, and what is to be said of them before and after."""

    caption: str
    before: Sentence
    rows: tuple[Result, ...]
    after: str


@dataclass(frozen=True, slots=True)
class UseRow:
    """A beer that it goes into; ``size`` is an edition's, where only that one uses it."""

    path: str
    title: Markup
    size: str
    lines: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class Alternative:
    """What can stand in, with its own page where the book has one, and why."""

    name: str
    why: Sentence


@dataclass(frozen=True, slots=True)
class IngredientPage:
    """A thing of the pantry; ``prices`` as the author wrote them, ``ranked`` where its shelf is one of stand-ins."""

    name: str
    also: tuple[str, ...]
    kind: str
    taste: str
    band: Band | None
    about: Markup
    remarks: tuple[str, ...]
    allergens: str
    prices: tuple[str, ...]
    numbers: tuple[Number, ...]
    results: tuple[Results, ...]
    uses: tuple[UseRow, ...]
    ranked: bool
    stand_ins: tuple[Alternative, ...]
    working: Working
    shelf: Link


def ingredient_page(thing: Stocked, book: Book, terms: Uses | None = None) -> IngredientPage:
    """The page of a thing that the book uses."""
    it, sheet = thing.ingredient, thing.sheet
    near = stand_ins(it, book.larder)
    why = values_in(tuple(found.why for found in near))
    worked = working([("The working", values_in(sheet)), ("What can stand in", why)], {}, taken=SECTIONS)
    shown = Shown(worked, thing.path, thing.path)
    return IngredientPage(
        name=it.name,
        also=it.also,
        kind=what_it_is(it),
        taste=words_of(it),
        band=_band(sheet),
        about=line(it.about, terms),
        remarks=tuple(brewers_words(it)),
        allergens=gathered([(it.name, it.brings)]).words,
        prices=_prices(it, book),
        numbers=tuple(_numbers(it, shown)),
        results=tuple(_results(sheet, shown)),
        uses=tuple(_use(it, brew, size, brew.shown(thing.path)) for brew, size in thing.brews),
        ranked=it.shelf != "finings",
        stand_ins=tuple(Alternative(found.other.name, shown.say(*found.why)) for found in near),
        working=worked,
        shelf=Link(f"{INGREDIENTS}#{shelf_of(it)[0]}", shelf_of(it)[1]),
    )


def _prices(it: Ingredient, book: Book) -> tuple[str, ...]:
    """What the author pays, in the author's words and money."""
    if book.prices is None:
        return ()
    said = book.prices.by_name.get(it.name.casefold(), {}).values()
    return tuple(
        f"{price.origin.written}, in {book.prices.currency}" for price in said if isinstance(price.origin, Given)
    )


def _band(sheet: Sheet) -> Band | None:
    """The colour of a beer that has no other colour than what a usual share of it brings."""
    if sheet.tint is None:
        return None
    srm = sheet.tint.srm.number
    return replace(band("brought", srm), words=f"The colour that a usual share of it brings: {colour_word(srm)}")


def _numbers(it: Ingredient, shown: Shown) -> Iterator[Number]:
    for field, label in NUMBERS[it.shelf]:
        value = it.figures.get(field)
        if value is None:
            continue
        span = from_to(*it.spans[field], value.unit) if field in it.spans else None
        said = value.made.words.removeprefix("the pantry: ") if isinstance(value.made, Given) else ""
        figure = shown(value) if id(value) in shown.working.anchors else unlinked(value)
        yield Number(capital(label), None if span and field in RANGES else figure, span, said)


def _results(sheet: Sheet, shown: Shown) -> Iterator[Results]:
    if sheet.extract is not None:
        it = sheet.extract
        rows = [("potential, fine grind", it.potential), ("potential, coarse grind", it.coarse)]
        rows += [("potential, coarse grind, after Noonan", it.coarse_noonan)]
        rows += [
            ("in points of a pound in a US gallon", it.points),
            ("in litre-degrees of a kilogram", it.litre_degrees),
        ]
        rows = [("potential", it.potential), *rows[3:]] if it.coarse is None else rows
        caption = "What a kilogram or a pound of it can give, as it is weighed"
        yield Results(caption, (), tuple(_rows(rows, shown)), POTENTIAL if it.coarse is not None else "")
    if sheet.tint is not None:
        yield _tint(sheet.tint, shown)
    if sheet.kept:
        rows = [(f"in {store.label}", left) for store, left in sheet.kept]
        before = shown.say(SIX_MONTHS, " after it was measured, of ", sheet.alpha, " there are left:")
        yield Results("Alpha acids left in an airtight bag", before, tuple(_rows(rows, shown)), KEEPING)
    if sheet.alive:
        rows = [(age.label.removeprefix("age of a pack, "), share) for age, share in sheet.alive]
        yield Results("A refrigerated pack of liquid yeast, by its age", (), tuple(_rows(rows, shown)), AGEING)


def _rows(rows: Iterable[tuple[str, Value | None]], shown: Shown) -> Iterator[Result]:
    yield from (Result(capital(label), shown(value)) for label, value in rows if value is not None)


def _tint(tint: Tint, shown: Shown) -> Results:
    before = shown.say("A usual share, ", tint.share, " of ", WHOLE_GRIST, " or ", tint.mass, ", brings by itself to ")
    rows = [("colour", tint.srm), ("colour, EBC", tint.ebc)]
    before = (*before, *shown.say(tint.wort, ":"))
    return Results("The colour that it brings", before, tuple(_rows(rows, shown)), "")


def _use(it: Ingredient, brew: Brew, size: str, shown: Shown) -> UseRow:
    return UseRow(brew.at.page, line(brew.plan.recipe.title), size, uses(it, brew.plan, shown))
