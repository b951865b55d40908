"""Which pages there are, and what every one of them is given besides its own matter."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from gristbook.model.book import Book
from gristbook.model.paths import BALANCE as BALANCE
from gristbook.model.paths import BREWHOUSES as BREWHOUSES
from gristbook.model.paths import BREWS as BREWS
from gristbook.model.paths import BREWS_CALENDAR as BREWS_CALENDAR
from gristbook.model.paths import CAUTIONS as CAUTIONS
from gristbook.model.paths import CHAPTERS
from gristbook.model.paths import FEED as FEED
from gristbook.model.paths import FIND as FIND
from gristbook.model.paths import GLOSSARY as GLOSSARY
from gristbook.model.paths import INDEX as INDEX
from gristbook.model.paths import INGREDIENTS as INGREDIENTS
from gristbook.model.paths import LEARNING as LEARNING
from gristbook.model.paths import PDF as PDF
from gristbook.model.paths import POTS as POTS
from gristbook.model.paths import SOURCES as SOURCES
from gristbook.model.paths import STYLES as STYLES
from gristbook.model.paths import TABLE as TABLE
from gristbook.problems import Place
from gristbook.sheet.value import Value
from gristbook.site.addresses import Anchors, slug
from gristbook.site.figures import Figure, unlinked


@dataclass(frozen=True, slots=True)
class Moved:
    """An address that a page had in earlier versions, and where that page is now; ``called`` is what it is.

    ``new`` may have a fragment. A fragment of the old address is carried along, behind ``prefix`` and a point where
    there is a prefix: `#colour` becomes `#stove.colour`.
    """

    old: str
    new: str
    called: str
    prefix: str = ""


@dataclass(frozen=True, slots=True)
class Address:
    """Where the pages of one brew stand: its own, for the day, a card, what to buy, its figures, those for a machine.

    The ``working`` is that of its beer, and stands with the recipe as it is written; ``moved`` are the old addresses
    that lead to one of them.
    """

    page: str
    day: str
    card: str
    buy: str
    figures: str
    working: str
    data: str
    moved: tuple[Moved, ...]

    def paths(self) -> tuple[str, ...]:
        """All of its own, the old ones too."""
        return self.page, self.day, self.card, self.buy, self.figures, self.data, *(it.old for it in self.moved)


def of_recipe(slug: str) -> Address:
    """The pages of a recipe as it is written."""
    day, card, buy, figures, working = (f"{slug}/{name}.html" for name in ("day", "card", "buy", "figures", "working"))
    return Address(f"{slug}.html", day, card, buy, figures, working, f"{slug}/figures.json", (_half_letter(card),))


def of_edition(slug: str, edition: str) -> Address:
    """The pages of an edition, by the addresses of its recipe and of the line that asks for it."""
    own = f"{slug}/{edition}"
    card, working = f"{own}-card.html", f"{slug}/working.html"
    moved = _half_letter(card), Moved(f"{own}-working.html", f"{working}#{edition}", "working", edition)
    day, buy, figures = (f"{own}-{name}.html" for name in ("day", "buy", "figures"))
    return Address(f"{own}.html", day, card, buy, figures, working, f"{own}.json", moved)


def _half_letter(card: str) -> Moved:
    return Moved(card.removesuffix(".html") + "-half-letter.html", card, "card")


@dataclass(frozen=True, slots=True)
class BatchAddress:
    """Where the pages of a batch stand: its own, the working, its figures for a machine, its days for a calendar."""

    page: str
    working: str
    data: str
    calendar: str


def of_batch(recipe: str, batch: str) -> BatchAddress:
    """The pages of a batch, by the addresses of its recipe and of itself; no edition's begins like it."""
    own = f"{recipe}/brew-{batch}"
    return BatchAddress(f"{own}.html", f"{own}-working.html", f"{own}.json", f"{own}.ics")


def houses_of(book: Book, *, brewed: bool) -> dict[str, str]:
    """The page of each brewhouse by its name; one that nobody described has one only where somebody brewed."""
    names = [name for name, house in book.brewhouses.items() if brewed or not house.assumed]
    anchors = Anchors(*(slug(f"{name} working") for name in names))
    return {name: f"brewhouses/{anchors.take(name)}.html" for name in names}


def working_of(house: str) -> str:
    """How what the brews of a brewhouse have taught is worked out, by its page."""
    return house.removesuffix(".html") + "-working.html"


def colour_path(slug: str) -> str:
    """A recipe's colour as a picture."""
    return f"{slug}/colour.svg"


def chapter_path(anchor: str) -> str:
    """A chapter and what to buy for it, by the name that its title has on the front page."""
    return f"{CHAPTERS}/{anchor}.html"


def page_path(slug: str) -> str:
    """Another page of the author's."""
    return f"{slug}.html"


def ingredient_path(anchor: str) -> str:
    """A thing of the pantry that a beer uses."""
    return f"ingredients/{anchor}.html"


def style_path(anchor: str) -> str:
    """A style that a beer is compared with."""
    return f"styles/{anchor}.html"


def lesson_path(slug: str) -> str:
    """A learning page."""
    return f"learning/{slug}.html"


@dataclass(frozen=True, slots=True)
class Link:
    """A way to another page, by its path in the site."""

    path: str
    words: str


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Group(Generic[T]):
    """Things of a list that belong together, under a heading with an anchor, and a word about them."""

    anchor: str
    title: str
    rows: tuple[T, ...]
    about: str = ""


HOME = Place("book.yaml")
"""Where what is nobody else's comes from."""


def around(them: Sequence[T]) -> Iterator[tuple[T | None, T, T | None]]:
    """Each with the one before it and the one after it, where there is one."""
    return zip((None, *them), them, (*them[1:], None), strict=False)


@dataclass(frozen=True, slots=True)
class Site:
    """What all pages share: the book's names, its language, which units come first, the links at the head.

    ``shelves`` are those at the foot; ``things`` the pages of ingredients and ``styles`` those of styles, by what the
    pantry calls them, ``houses`` those of brewhouses, by their names; ``feed`` is the path of the feed, empty where
    there is none. ``kettles`` is the most that any beer is worked out for, ``narrowing`` the keys that beers are chosen
    by. ``paper`` is the path of the book as a PDF, empty where none was asked for, ``extra`` that of the author's own
    style sheet beside ours.
    """

    title: str
    author: str
    address: str
    language: str
    us_first: bool
    links: tuple[Link, ...]
    shelves: tuple[Link, ...] = ()
    things: Mapping[str, str] = field(default_factory=dict)
    styles: Mapping[str, str] = field(default_factory=dict)
    houses: Mapping[str, str] = field(default_factory=dict)
    feed: str = ""
    kettles: int = 0
    narrowing: tuple[str, ...] = ()
    paper: str = ""
    extra: str = ""


@dataclass(frozen=True, slots=True)
class Page:
    """One page to render: its file, its template, what its head says, and the view that its template is given.

    ``place`` is where in the book it comes from. ``us_first`` says which units come first on it, `None` that the book's
    do; ``data`` is the same for machines; ``figure`` prints its values; ``listed`` says whether it is one to be found;
    ``trail`` are the pages above it.
    """

    path: str
    template: str
    title: str
    description: str
    view: object
    place: Place = HOME
    us_first: bool | None = None
    data: str = ""
    figure: Callable[[Value], Figure] = unlinked
    listed: bool = True
    trail: tuple[Link, ...] = ()


OF_A_PAGE = ("day", "card", "figures", "working", "answers")
"""How the names of pages end that belong to another whose name has no such end."""


def trail(path: str, titled: Callable[[str], str | None]) -> tuple[Link, ...]:
    """The pages above one, the front page first; ``titled`` gives the title of a page that may be among them.

    >>> [it.words for it in trail("ale/5-gal-day.html", {"ale.html": "Ale", "ale/5-gal.html": "Ale, 5 gal"}.get)]
    ['Ale', '5 gal']
    """
    folder, _, name = path.rpartition("/")
    base, _, end = name.removesuffix(".html").rpartition("-")
    above = [INDEX, *((f"{folder}/index.html", f"{folder}.html", f"{folder}/{base}.html") if folder else ())]
    links: list[Link] = []
    for near in above if end in OF_A_PAGE and base else above[:3]:
        if near != path and (title := titled(near)):
            known = links[-1].words if links else ""
            links.append(Link(near, title.removeprefix(f"{known}, ").removesuffix(f" – {known}")))
    return tuple(links)


def site_of(
    book: Book,
    titles: Mapping[str, str],
    *,
    things: Mapping[str, str],
    styles: Mapping[str, str],
    brewed: bool = False,
) -> Site:
    """What all pages of a book share; ``titles`` are the author's pages by slug, as they are printed.

    ``brewed`` says whether there are pages of brews.
    """
    links = (
        Link(INDEX, "Beers"),
        *(Link(page_path(slug), title) for slug, title in titles.items()),
        *((Link(INGREDIENTS, "Ingredients"),) if things else ()),
        *((Link(LEARNING, book.learning_called or "Learn"),) if book.learning and book.learning.groups else ()),
        *((Link(BREWS, "Brews"),) if brewed else ()),
        Link(CAUTIONS, "Take care"),
        Link(FIND, "Find"),
    )
    houses = houses_of(book, brewed=brewed)
    shelves = (
        *((Link(POTS, "Which pot"), Link(TABLE, "Table of beers")) if things else ()),
        *((Link(STYLES, "Styles"),) if styles else ()),
        *((Link(BREWHOUSES, "Brewhouses"),) if houses else ()),
        *((Link(GLOSSARY, "Glossary"),) if book.learning and book.learning.terms else ()),
        Link(SOURCES, "Sources"),
    )
    address = book.address if not book.address or book.address.endswith("/") else book.address + "/"
    us_first = book.units == "US"
    return Site(book.title, book.author, address, book.language, us_first, links, shelves, things, styles, houses)
