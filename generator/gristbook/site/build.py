"""The whole site of a book in memory: every file by its path, and nothing written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from pathlib import Path

from gristbook.charts import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.band import band, band_svg
from gristbook.site.batch_pages import Journal, batch_files, batch_pages, journal
from gristbook.site.beer_pages import beer_pages
from gristbook.site.brews import Beer, Brew, beer_of, values_shown
from gristbook.site.cautions_page import cautions_page
from gristbook.site.chapter_page import chapter_page
from gristbook.site.feed import dated, feed
from gristbook.site.feeds import figures_json
from gristbook.site.files import Files
from gristbook.site.index_page import index_page, parts, reading_order
from gristbook.site.larder import Stocked, paths, stocked, values_of
from gristbook.site.learning_pages import contents_page, glossary_page, lesson_pages
from gristbook.site.outline import CONTENTS, Outline, outline
from gristbook.site.pages import Link, Page
from gristbook.site.prose import line, plain
from gristbook.site.render import Broken, Renderer
from gristbook.site.shelf_pages import shelf_pages
from gristbook.site.sources_page import sources_page
from gristbook.site.style_page import styles_of
from gristbook.targets.batches.learn import NO_LESSONS, Lessons
from gristbook.targets.batches.results import BatchFigures
from gristbook.targets.cautions import all_cautions
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
    """
    brews = journal(book, batches, lessons)
    learned = brews.elsewhere()
    beers = [beer_of(plan, book, learned) for plan in reading_order(book, plans)]
    files = Files(problems)
    titles = {page.slug: plain(page.title) for page in book.pages}
    stock, styles = stocked(book, beers), styles_of(beers)
    by_name = {style.name: path for path, style in styles.items()}
    site = at.site_of(book, titles, things=paths(stock), styles=by_name, brewed=bool(brews.batches))
    news = dated([beer.home.plan for beer in beers]) if site.address else ()
    site = replace(site, feed=at.FEED if news else "")
    written = outline(book, plans, [it.batch for it in batches], files, problems, folder=folder, theme=theme)
    renderer = Renderer(site, theme, sound=written.theme_is_sound)
    try:
        for path, data in renderer.assets().items():
            files.put(path, data, Place("theme"))
    except Broken as fault:
        written.broken(fault.path, fault.line, fault.why)
    shelves = shelf_pages(book, beers, stock, styles, written.desk.glossary, cache)
    for page, place in chain(
        _pages(book, beers, brews, stock, written, cache), ((page, Place("pantry")) for page in shelves)
    ):
        try:
            files.put(page.path, renderer.page(page), place)
        except Broken as fault:
            written.broken(fault.path, fault.line, fault.why)
    for plan in (beer.home.plan for beer in beers):
        colour = band(plan.recipe.slug, plan.figures.colour.srm.number)
        files.put(at.colour_path(plan.recipe.slug), band_svg(colour), plan.recipe.place)
    for it in (it for each in beers for it in each.brews()):
        files.put(it.at.data, figures_json(it.plan), it.plan.recipe.place)
    for path, data, place in batch_files(book, brews, site.address):
        files.put(path, data, place)
    if news:
        files.put(at.FEED, feed(book, site.address, news), Place("book.yaml"))
    return files.sorted(site.address)


def _pages(
    book: Book, beers: Sequence[Beer], brews: Journal, stock: Sequence[Stocked], written: Outline, cache: FrameCache
) -> Iterator[tuple[Page, Place]]:
    """Every page, and where in the book it comes from."""
    plans, home = [beer.home.plan for beer in beers], Place("book.yaml")
    title = plain(book.title)
    yield Page(at.INDEX, "index.html", title, _description(book), index_page(book, plans)), home
    by_slug = {beer.home.plan.recipe.slug: beer for beer in beers}
    chapters = parts(book, by_slug)
    for part in chapters:
        view = chapter_page(book, part, [by_slug[slug] for slug in part.slugs])
        words = f"The beers of the chapter {plain(part.title)}, and what to buy for them."
        yield Page(at.chapter_path(part.anchor), "chapter.html", f"{plain(part.title)} – {title}", words, view), home
    for page in book.pages:
        place = Place(f"pages/{page.slug}.md")
        path = at.page_path(page.slug)
        own = {"title": line(page.title), "prose": written.texts[path]}
        yield Page(path, "page.html", f"{plain(page.title)} – {title}", plain(page.title), own), place
    for count, beer in enumerate(beers):
        place = beer.home.plan.recipe.place
        links = [beers[n].home if 0 <= n < len(beers) else None for n in (count - 1, count + 1)]
        holding = tuple(
            Link(at.chapter_path(part.anchor), plain(part.title))
            for part in chapters
            if beer.home.plan.recipe.slug in part.slugs
        )
        neighbours = (_link(links[0]), _link(links[1]))
        for made in beer_pages(
            beer,
            book,
            written.texts[beer.home.at.page],
            chapters=holding,
            neighbours=neighbours,
            glossary=written.desk.glossary,
            journal=brews,
            cache=cache,
        ):
            yield made, place
    yield from batch_pages(book, brews, by_slug, written.texts, cache)
    yield from _learning(book, written)
    words = "Every caution of the book in one place."
    yield Page(at.CAUTIONS, "cautions.html", f"Take care – {title}", words, cautions_page(all_cautions())), home
    shown = chain(values_shown(brew for beer in beers for brew in beer.brews()), values_of(stock), brews.values())
    sources = sources_page(plans, shown)
    yield (
        Page(at.SOURCES, "sources.html", f"Sources – {title}", "What every figure of the book rests on.", sources),
        home,
    )


def _link(brew: Brew | None) -> Link | None:
    return Link(brew.at.page, plain(brew.plan.recipe.title)) if brew else None


def _description(book: Book) -> str:
    return f"{plain(book.title)}, by {book.author}" if book.author else plain(book.title)


def _learning(book: Book, written: Outline) -> Iterator[tuple[Page, Place]]:
    """The learning pages and the glossary, where the book has them."""
    learning, title = book.learning, plain(book.title)
    home = Place(CONTENTS)
    if learning and learning.groups:
        words = "What the words and the steps of a recipe mean, from the first boil on."
        yield Page(at.LEARNING, "learning.html", f"Learning – {title}", words, contents_page(learning)), home
    for lesson, view in lesson_pages(learning) if learning else ():
        path = at.lesson_path(lesson.slug)
        text = written.texts.get(path) or written.desk.lesson(lesson, path)
        head = f"{plain(lesson.title)} – Learning – {title}"
        place = lesson.place or Place(f"learning/{lesson.slug}.md")
        yield Page(path, "lesson.html", head, plain(lesson.summary), replace(view, prose=text)), place
    if learning and learning.terms:
        words = "The words of the trade, by the alphabet."
        entries = glossary_page(learning, written.desk.glossary)
        yield Page(at.GLOSSARY, "glossary.html", f"Glossary – {title}", words, entries), home
