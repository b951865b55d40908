"""The pages of one beer: its own, its card and its working, as it is written and in every edition."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from gristbook.charts import FrameCache
from gristbook.model.book import Book
from gristbook.site.batch_pages import Journal, brewed_here
from gristbook.site.brews import FROM, Beer, Brew, OtherBrew
from gristbook.site.card_page import A5, HALF_LETTER, card_page
from gristbook.site.editions import changes, comparison
from gristbook.site.learning_pages import explained
from gristbook.site.pages import Link, Page
from gristbook.site.prose import line, plain
from gristbook.site.recipe_page import recipe_page
from gristbook.site.stamp import stamp
from gristbook.site.structured import recipe_data
from gristbook.site.terms import Glossary
from gristbook.site.working_page import WorkingPage


def beer_pages(
    beer: Beer,
    book: Book,
    prose: Markup,
    *,
    chapters: tuple[Link, ...],
    neighbours: tuple[Link | None, Link | None],
    glossary: Glossary,
    journal: Journal,
    cache: FrameCache,
) -> Iterator[Page]:
    """Every page of a beer; ``prose`` is the author's, ``neighbours`` the beers before and after it."""
    home, us_first = beer.home, book.units == "US"
    recipe, name = home.plan.recipe, plain(book.title)
    title, summary = plain(recipe.title), plain(recipe.summary)
    view = recipe_page(
        home.plan,
        home.shown(home.at.page),
        steps=home.steps,
        at=home.at,
        cache=cache,
        prose=prose,
        editions=comparison(beer, us_first=us_first),
        brewed=brewed_here(journal, beer, home.at.page, cache),
        chapters=chapters,
        neighbours=neighbours,
        terms=glossary.on(home.at.page),
        learn=explained(book.learning),
        stamp=stamp(home.plan, home.mark),
    )
    yield Page(home.at.page, "recipe.html", f"{title} – {name}", summary, view, data=recipe_data(home, book, prose))
    yield from _besides(home, title, name, summary)
    for edition in beer.editions:
        yield from _edition_pages(beer, edition, book, glossary, journal, cache)


def _edition_pages(
    beer: Beer, edition: OtherBrew, book: Book, glossary: Glossary, journal: Journal, cache: FrameCache
) -> Iterator[Page]:
    brew, us, name = edition.brew, edition.made.edition.us, plain(book.title)
    title = f"{plain(brew.plan.recipe.title)}, {edition.words}"
    view = recipe_page(
        brew.plan,
        brew.shown(brew.at.page),
        steps=brew.steps,
        at=brew.at,
        cache=cache,
        changes=changes(beer, edition, us_first=book.units == "US"),
        brewed=brewed_here(journal, beer, brew.at.page, cache, edition.made.edition.slug),
        terms=glossary.on(brew.at.page),
        learn=explained(book.learning),
        stamp=stamp(brew.plan, brew.mark, edition.words),
    )
    summary = f"{title}: {plain(brew.plan.recipe.summary)}".removesuffix(": ")
    yield Page(brew.at.page, "edition.html", f"{title} – {name}", summary, view, us)
    yield from _besides(brew, title, name, summary, us=us, edition=edition)


def _besides(
    brew: Brew, title: str, book: str, summary: str, *, us: bool | None = None, edition: OtherBrew | None = None
) -> Iterator[Page]:
    """The cards and the working of a brew."""
    at, made = brew.at, edition.words if edition else ""
    brewed_from = FROM[edition.made.edition.source] if edition else ""
    for paper, path, words in ((A5, at.card, "card"), (HALF_LETTER, at.half_letter, "card on half a letter")):
        card = card_page(brew, paper, brewed_from, made)
        yield Page(path, "card.html", f"{title}, {words} – {book}", summary, card, us)
    heading = line(brew.plan.recipe.title) + (f", {edition.words}" if edition else "")
    words = f"How every figure of {title} is worked out."
    view = WorkingPage(heading, at.page, brew.working)
    yield Page(at.working, "working.html", f"{title}, working – {book}", words, view, us)
