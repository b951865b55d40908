"""What the page of an ingredient is given: what it is, its numbers, where it is used, and what can stand in for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.model.larder import Ingredient
from gristbook.problems import Place
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, from_to
from gristbook.site.band import Band, band
from gristbook.site.beer.known import Known
from gristbook.site.figures import Figure, Sentence, Shown, unlinked
from gristbook.site.pages import INGREDIENTS, Link, Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line
from gristbook.site.shelf.ingredient_words import NUMBERS, RANGES, brewers_words, what_it_is
from gristbook.site.shelf.larder import Stocked, uses
from gristbook.site.shelf.shelves_page import shelf_of, words_of
from gristbook.site.words import capital, colour_word
from gristbook.site.working.page import worksheet
from gristbook.site.working.walk import Group, Kettle, values_in
from gristbook.site.working.worksheet import Working, Worksheet
from gristbook.targets.advice.allergens import gathered
from gristbook.targets.buying.alternatives import StandIn
from gristbook.targets.buying.ingredients import SIX_MONTHS, WHOLE_GRIST, WORT, Sheet
from gristbook.targets.buying.instead import weights

SECTIONS = ("what-can-stand-in", "the-beers-that-use-it", "table-of-uses", "the-numbers", "what-follows")
"""The anchors of the page, which no number of its working takes."""

POTENTIAL = (
    "Fine grind is what this book reckons with: the mash efficiency holds all that a coarser mill leaves behind. "
    "The last two are the fine grind in the trade’s other ways."
)
KEEPING = "Whole cones lose more than pellets; an open packet in the warm loses most of all."
AGEING = (
    "A guide, and no more: makers state what lives after a month, and nothing is known beyond. Two packs of one age "
    "differ: brewers reckon with four fifths after a month, and one who counted seven slurries found nearly all alive; "
    "a starter tells. Dried yeast keeps far longer, by the date on its packet."
)


@dataclass(frozen=True, slots=True)
class Number:
    """A figure of the pantry, or only its low and high, and who says so."""

    label: str
    figure: Figure | None
    span: Amount | None
    source: str


@dataclass(frozen=True, slots=True)
class Results:
    """Figures that belong in one table by what they are called, and what is to be said of them before and after."""

    caption: str
    before: Sentence
    rows: tuple[tuple[str, Value], ...]
    after: str = ""


@dataclass(frozen=True, slots=True)
class UseRow:
    """A beer that it goes into; ``size`` is an edition's, where only that one uses it."""

    path: str
    title: Markup
    size: str
    lines: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class IngredientPage:
    """A thing of the pantry; ``prices`` as the author wrote them, ``ranked`` where its shelf is one of stand-ins.

    ``stand_ins_from`` says who names them, "" where they are only near by what they bring.
    """

    thing: Ingredient
    kind: str
    pedigree: str
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
    stand_ins: tuple[StandIn, ...]
    stand_ins_from: str
    worksheet: Worksheet
    shelf: Link


def ingredient_page(printing: Printing, thing: Stocked) -> Page:
    """The page of a thing that the book uses."""
    view, working = _page(thing, printing)
    name = thing.ingredient.name
    words = f"{name}: {view.taste or view.kind}, its numbers, the beers that use it, and what can stand in."
    return printing.page(
        *(thing.path, "ingredient.html", f"{name} – Ingredients", words, view),
        place=Place("pantry"),
        figure=Shown(working, thing.path, thing.path),
    )


def _page(thing: Stocked, printing: Printing) -> tuple[IngredientPage, Working]:
    it, sheet, book = thing.ingredient, thing.sheet, printing.book
    near = [StandIn(found.other, (*found.why, *weights(it, found.other))) for found in thing.instead]
    why = Group("How near the others are", tuple(values_in(tuple(found.why for found in near))))
    groups = (Group("The working", tuple(values_in(sheet))), why)
    page, (worked,) = worksheet([Kettle("", thing.path, groups)], SECTIONS)
    anchor, shelf = shelf_of(it)
    view = IngredientPage(
        thing=it,
        kind=what_it_is(it),
        pedigree=it.words.get("pedigree", ""),
        taste=words_of(it),
        band=_band(sheet),
        about=line(it.about, printing.written.desk.glossary.on(thing.path)),
        remarks=tuple(brewers_words(it)),
        allergens=gathered([(it.name, it.brings)]).words,
        prices=_prices(it, book),
        numbers=tuple(_numbers(it, Shown(worked, thing.path, thing.path))),
        results=tuple(_results(sheet)),
        uses=tuple(_use(thing, beer, edition) for beer, edition in thing.brews),
        ranked=it.shelf not in ("finings", "fruits"),
        stand_ins=tuple(near),
        stand_ins_from=it.words.get("stand ins from", "from memory") if it.stand_ins else "",
        worksheet=page,
        shelf=Link(f"{INGREDIENTS}#{anchor}", shelf),
    )
    return view, worked


def _prices(it: Ingredient, book: Book) -> tuple[str, ...]:
    """What the author pays, in the author's words and money."""
    if book.prices is None:
        return ()
    said = book.prices.by_name.get(it.name.casefold(), {}).values()
    return tuple(
        f"{price.origin.written}, in {book.prices.currency}" for price in said if isinstance(price.origin, Given)
    )


def _band(sheet: Sheet) -> Band | None:
    if sheet.tint is None:
        return None
    srm = sheet.tint.srm.number
    return replace(band(srm), words=f"The colour of a beer with a tenth of it: {colour_word(srm)}")


def _numbers(it: Ingredient, shown: Shown) -> Iterator[Number]:
    for field, label in NUMBERS[it.shelf]:
        value = it.figures.get(field)
        if value is None:
            continue
        span = from_to(*it.spans[field], value.unit) if field in it.spans else None
        said = value.made.words.removeprefix("the pantry: ") if isinstance(value.made, Given) else ""
        figure = shown(value) if id(value) in shown.working.anchors else unlinked(value)
        yield Number(capital(label), None if span and field in RANGES else figure, span, said)


def _results(sheet: Sheet) -> Iterator[Results]:
    if (it := sheet.extract) is not None:
        rows: list[tuple[str, Value | None]] = [
            ("potential, fine grind" if it.coarse is not None else "potential", it.potential),
            ("potential, coarse grind", it.coarse),
            ("potential, coarse grind, after Noonan", it.coarse_noonan if it.coarse is not None else None),
            ("in points of a pound in a US gallon", it.points),
            ("in litre-degrees of a kilogram", it.litre_degrees),
        ]
        caption = "What a kilogram or a pound of it can give, as it is weighed"
        yield Results(caption, (), _rows(rows), POTENTIAL if it.coarse is not None else "")
    if (tint := sheet.tint) is not None:
        dose = "A tenth of ", WHOLE_GRIST, " of grist for ", WORT, " is this, the rest pilsner malt:"
        yield Results("The colour that it brings", dose, _rows([("colour", tint.srm), ("colour, EBC", tint.ebc)]))
    if sheet.kept and sheet.alpha is not None:
        rows = [(f"in {store.label}", left) for store, left in sheet.kept]
        before = ("Of the ", sheet.alpha, " that were measured, there are left after ", SIX_MONTHS, ":")
        yield Results("Alpha acids left in an airtight bag", before, _rows(rows), KEEPING)
    if sheet.alive:
        rows = [(age.label.removeprefix("age of a pack, "), share) for age, share in sheet.alive]
        yield Results("A refrigerated pack of liquid yeast, by its age", (), _rows(rows), AGEING)


def _rows(rows: Iterable[tuple[str, Value | None]]) -> tuple[tuple[str, Value], ...]:
    return tuple((capital(label), value) for label, value in rows if value is not None)


def _use(thing: Stocked, beer: Known, edition: str) -> UseRow:
    it = thing.ingredient
    path, words, lines = beer.ask(used_in, it.shelf, it.name, edition, thing.path)
    return UseRow(path, line(beer.title), words, lines)


def used_in(it: Known, shelf: str, name: str, edition: str, here: str) -> tuple[str, str, tuple[Sentence, ...]]:
    """The page of a brew that a thing goes into, what the brew is where it is an edition, and how much and when."""
    beer = it.beer
    made = next((one for one in beer.editions if one.made.edition.slug == edition), None)
    brew, words = (made.brew, made.words) if made else (beer.home, "")
    shown = brew.shown(here)
    return brew.at.page, words, tuple(shown.words(said) for said in uses(shelf, name, brew.plan))
