"""The long lists that a reader narrows the front page by: what goes in, and styles; a beer bears keys of both."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter

from gristbook.model.style import Style
from gristbook.site.addresses import Anchors
from gristbook.site.beer.known import Known
from gristbook.site.book.narrowing import FEWEST
from gristbook.site.pages import Group
from gristbook.site.shelf.larder import Stocked
from gristbook.site.shelf.shelves_page import SHELVES, shelf_of
from gristbook.site.words import capital


@dataclass(frozen=True, slots=True)
class Listed:
    """Something to choose by: its key, what an address calls it, its words, and the beers that answer to it."""

    key: str
    value: str
    words: str
    beers: frozenset[str]


@dataclass(frozen=True, slots=True)
class Listing:
    """A list to choose from, in groups of a title each; ``any`` is what stands there until somebody chooses."""

    name: str
    words: str
    any: str
    groups: tuple[Group[Listed], ...]


def listings(beers: Sequence[Known], stock: Sequence[Stocked]) -> tuple[Listing, ...]:
    """What the beers of a book may be chosen by besides their figures: no list where there is nothing to choose."""
    if len(beers) < FEWEST:
        return ()
    shelves = [title for _, title, _, _ in SHELVES]
    things = [
        (
            shelf_of(it.ingredient)[1],
            it.ingredient.name,
            {beer.slug for beer, edition in it.brews if not edition},
        )
        for it in stock
    ]
    things.sort(key=lambda it: (shelves.index(it[0]), it[1].casefold()))
    styles = {beer.slug: style for beer in beers if (style := beer.style)}
    found = (
        Listing("with", "With", "anything", _groups("i", things, len(beers))),
        Listing("style", "Style", "any", _groups("s", [*_styles(styles)], len(beers))),
    )
    return tuple(it for it in found if it.groups)


def _styles(styles: dict[str, Style]) -> Iterator[tuple[str, str, Collection[str]]]:
    """Families of styles, then styles: one of a single beer is found by its family."""
    for title, named in (("Families", attrgetter("family")), ("Styles", attrgetter("name"))):
        for name in sorted(set(map(named, styles.values()))):
            yield title, capital(name), {slug for slug, style in styles.items() if named(style) == name}


def _groups(letter: str, them: Sequence[tuple[str, str, Collection[str]]], beers: int) -> tuple[Group[Listed], ...]:
    """Those that more than one beer answers to and not every beer, each with a key as short as can be."""
    names = Anchors()
    told = [it for it in them if 1 < len(it[2]) < beers]
    listed = [
        (title, Listed(f"{letter}{n}", names.take(words), words, frozenset(its)))
        for n, (title, words, its) in enumerate(told)
    ]
    return tuple(Group("", title, tuple(it for _, it in rows)) for title, rows in groupby(listed, key=lambda it: it[0]))


def keys_in(lists: Sequence[Listing], slug: str = "") -> tuple[str, ...]:
    """The keys of these lists that a beer answers to; every key where no beer is named."""
    every = (it for listing in lists for group in listing.groups for it in group.rows)
    return tuple(it.key for it in every if not slug or slug in it.beers)
