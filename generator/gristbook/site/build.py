"""The whole site of a book in memory: every file by its path, and nothing written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.band import band, band_svg
from gristbook.site.beer.beer_pages import beer_pages
from gristbook.site.beer.brews import beer_of
from gristbook.site.beer.pictures import all_beers
from gristbook.site.book.chapter_page import chapter_pages
from gristbook.site.book.chapters import parts
from gristbook.site.book.feed import dated, feed
from gristbook.site.book.feeds import figures_json
from gristbook.site.book.find_page import find_page
from gristbook.site.book.index_page import index_page
from gristbook.site.book.listings import Listing, keys_in, listings
from gristbook.site.book.narrowing import KEYS
from gristbook.site.book.paper import paper_book
from gristbook.site.book.pots_page import pots_page
from gristbook.site.book.table_page import table_page
from gristbook.site.brew.batch_pages import batch_files, batch_pages
from gristbook.site.brew.batches import journal
from gristbook.site.brew.brewhouses_page import brewhouse_pages
from gristbook.site.disk.files import Files
from gristbook.site.learn.cautions_page import cautions_page
from gristbook.site.learn.examples import examples
from gristbook.site.learn.learning_pages import learning_pages
from gristbook.site.moved import moved_pages
from gristbook.site.outline import Outline, outline
from gristbook.site.pages import Page
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.render import Broken, Renderer
from gristbook.site.shelf.ingredient_page import ingredient_pages
from gristbook.site.shelf.larder import names_of, paths, stocked
from gristbook.site.shelf.shelves_page import named, shelves
from gristbook.site.shelf.sources_page import sources_page
from gristbook.site.shelf.style_page import families, style_pages, styles_of
from gristbook.targets.advice.cautions import all_cautions
from gristbook.targets.batches.learn import NO_LESSONS, Lessons
from gristbook.targets.batches.results import BatchFigures
from gristbook.targets.figures import Plan


def make_site(
    book: Book,
    plans: Sequence[Plan],
    problems: Problems,
    cache: FrameCache,
    *,
    folder: Path | None = None,
    theme: Path | None = None,
    batches: Sequence[BatchFigures] = (),
    lessons: Lessons = NO_LESSONS,
    pdf: Callable[[bytes], bytes] | None = None,
) -> Mapping[str, bytes]:
    """Every file of the site by its path, sorted.

    Parameters
    ----------
    plans : the recipes that can be brewed; others have no page
    problems : told of links that lead nowhere, of two producers of one file, and of broken templates
    cache : keeps the frames of charts
    folder : where the book lies, for its pictures
    theme : the book's own templates and styles, if it has any
    batches, lessons : the book's batches worked out, and what they have taught
    pdf : makes a PDF of the book on paper, which is one of the files then
    """
    by_slug = {plan.recipe.slug: plan for plan in plans}
    chapters, brews = parts(book, by_slug), journal(book, batches, lessons)
    learned = brews.elsewhere()
    beers = {slug: beer_of(by_slug[slug], book, learned) for part in chapters for slug in part.slugs}
    stock, styles = stocked(book, [*beers.values()]), styles_of(beers.values())
    files = Files(problems)
    site = at.site_of(
        book,
        {page.slug: plain(page.title) for page in book.pages},
        things=paths(stock),
        styles={style.name: path for path, style in styles.items()},
        brewed=bool(brews.batches),
    )
    news = dated([beer.home.plan for beer in beers.values()]) if site.address else ()
    written = outline(book, plans, [it.batch for it in batches], files, problems, folder=folder, theme=theme)
    seen_in = examples(book.learning, [beer.home.plan for beer in beers.values()])
    printing = Printing(book, beers, chapters, brews, stock, styles, names_of(stock), written, cache, seen_in)
    kettles = max((1 + len(beer.editions) for beer in beers.values()), default=0)
    lists = listings([*beers.values()], stock)
    site = replace(
        site,
        paper=at.PDF if pdf else "",
        feed=at.FEED if news else "",
        kettles=kettles,
        narrowing=(*KEYS, *keys_in(lists)),
    )
    renderer = Renderer(site, theme, sound=written.theme_is_sound)
    _dress(written, renderer, files)
    for path, data, place in _data(printing, site.address):
        files.put(path, data, place)
    told = _trailed(_pages(printing, lists), plain(book.title))
    made = [page for page in _put(told, written, renderer, files) if pdf or page is None]
    if pdf and None not in made:
        _bind(pdf, [page for page in made if page], printing, renderer, files)
    if news:
        files.put(at.FEED, feed(book, site.address, news), Place("book.yaml"))
    return files.sorted(site.address)


def _trailed(pages: Iterator[Page], book: str) -> Iterator[Page]:
    """Each page with those above it, which come before it; ``book`` is what all their titles end with."""
    titles: dict[str, str] = {}
    for page in pages:
        yield replace(page, trail=at.trail(page.path, titles))
        titles[page.path] = page.title.removesuffix(f" – {book}")


def _dress(written: Outline, renderer: Renderer, files: Files) -> None:
    """What pages are dressed in."""
    try:
        for path, data in renderer.assets().items():
            files.put(path, data, Place("theme"))
    except Broken as fault:
        written.broken(fault.path, fault.line, fault.why)


def _put(pages: Iterator[Page], written: Outline, renderer: Renderer, files: Files) -> Iterator[Page | None]:
    """Every page, once it is among the files; `None` for one that could not be made."""
    for page in pages:
        try:
            files.put(page.path, renderer.page(page), page.place, listed=page.listed)
        except Broken as fault:
            written.broken(fault.path, fault.line, fault.why)
            yield None
        else:
            yield page


def _bind(
    pdf: Callable[[bytes], bytes], pages: Sequence[Page], printing: Printing, renderer: Renderer, files: Files
) -> None:
    """The whole book as one more file."""
    try:
        made = paper_book(pages, printing, files.sorted(""), renderer.page)
    except Broken as fault:
        printing.written.broken(fault.path, fault.line, fault.why)
    else:
        files.put(at.PDF, pdf(made), Place("book.yaml"))


def _pages(printing: Printing, lists: tuple[Listing, ...]) -> Iterator[Page]:
    """Every page; ``lists`` are what beers are chosen by on the first."""
    book, plans = printing.book, [beer.home.plan for beer in printing.beers.values()]
    title = plain(book.title)
    words = f"{title}, by {book.author}" if book.author else title
    made = {slug: [it.brew.plan for it in beer.editions] for slug, beer in printing.beers.items()}
    yield Page(at.INDEX, "index.html", title, words, index_page(book, plans, made, lists))
    yield find_page(printing)
    if printing.beers:
        yield pots_page(printing)
        yield table_page(printing)
    yield from chapter_pages(printing)
    for page in book.pages:
        path, name = at.page_path(page.slug), plain(page.title)
        own = {"title": line(page.title), "prose": printing.written.texts[path]}
        yield printing.page(path, "page.html", name, name, own, place=Place(f"pages/{page.slug}.md"))
    yield from beer_pages(printing)
    yield from brewhouse_pages(printing)
    yield from batch_pages(printing)
    yield from learning_pages(printing)
    words = "Every caution of the book in one place."
    yield printing.page(at.CAUTIONS, "cautions.html", "Take care", words, cautions_page(all_cautions()))
    words = "What every figure of the book rests on."
    yield printing.page(at.SOURCES, "sources.html", "Sources", words, sources_page(plans, printing.values()))
    yield from _shelves(printing)
    yield from moved_pages(printing)


def _shelves(printing: Printing) -> Iterator[Page]:
    """The lists of ingredients and of styles, and all that they lead to; none in a book without a beer."""
    place = Place("pantry")
    if printing.stock:
        words = "What the beers of this book are made from: what it brings, and what can stand in for it."
        view = {"shelves": shelves(printing.stock), "named": named(printing.book.larder)}
        yield printing.page(at.INGREDIENTS, "ingredients.html", "Ingredients", words, view, place=place)
    yield from ingredient_pages(printing)
    if printing.styles:
        words = "The styles that the beers of this book are compared with, by families."
        yield printing.page(at.STYLES, "styles.html", "Styles", words, {"families": families(printing)}, place=place)
    yield from style_pages(printing)


def _data(printing: Printing, address: str) -> Iterator[tuple[str, bytes, Place]]:
    """What no reader opens: pictures that pages take in, figures for other programs, days for calendars."""
    if printing.beers:
        plans = (beer.home.plan for beer in printing.beers.values())
        yield at.BALANCE, all_beers(plans, printing.frames), at.HOME
    for beer in printing.beers.values():
        recipe, srm = beer.home.plan.recipe, beer.home.plan.figures.colour.srm
        yield at.colour_path(recipe.slug), band_svg(band(srm.number)), recipe.place
        for it in beer.brews():
            yield it.at.data, figures_json(it.plan, it.steps, it.judgement), recipe.place
    yield from batch_files(printing, address)
