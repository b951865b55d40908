"""The whole site of a book in memory: every file by its path, and nothing written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from markupsafe import Markup

from gristbook.charts import FrameCache
from gristbook.model.book import Book
from gristbook.model.recipe import Hop, HoppedKit, Malt, Recipe, Sugar, Yeast
from gristbook.problems import Place, Problems
from gristbook.site import pages as at
from gristbook.site.addresses import Anchors, way
from gristbook.site.card_page import card_page
from gristbook.site.feeds import figures_json, robots, sitemap
from gristbook.site.figures import Shown
from gristbook.site.index_page import index_page, reading_order
from gristbook.site.pages import Link, Page
from gristbook.site.prose import elsewhere, line, plain, prose
from gristbook.site.recipe_page import SECTIONS, recipe_page
from gristbook.site.render import Broken, Renderer
from gristbook.site.sources_page import sources_page
from gristbook.site.words import capital
from gristbook.site.working import Working, values_in, working
from gristbook.site.working_page import WorkingPage
from gristbook.targets.figures import Plan
from gristbook.targets.method import steps
from gristbook.targets.method_step import Step
from gristbook.worksheet import Given, Value

TITLES: Mapping[str, str] = {
    "grist": "The grist",
    "volumes": "Volumes",
    "wort": "Gravity",
    "fermentation": "Fermentation",
    "bitterness": "Bitterness",
    "colour": "Colour",
    "mash": "The mash",
    "water": "Water",
    "pitch": "Yeast",
    "cooling": "Cooling",
    "packaging": "Packaging",
    "serving": "In the glass",
    "readings": "Instruments",
}
"""What each part of the plan is called in the working."""


@dataclass(frozen=True, slots=True)
class _Recipe:
    """A plan with its method and its working, worked out once for all its pages."""

    plan: Plan
    steps: tuple[Step, ...]
    working: Working


def make_site(
    book: Book, plans: Sequence[Plan], problems: Problems, cache: FrameCache, *, theme: Path | None = None
) -> Mapping[str, bytes]:
    """Every file of the site by its path, sorted.

    Parameters
    ----------
    plans : the recipes that can be brewed; others have no page
    problems : told of links that lead nowhere, of two producers of one file, and of broken templates
    cache : keeps the frames of charts
    theme : the book's own templates and styles, if it has any
    """
    ordered = reading_order(book, plans)
    recipes = [_Recipe(plan, made := steps(plan), working_of(plan, made)) for plan in ordered]
    files = _Files(problems)
    titles = {page.slug: plain(page.title) for page in book.pages}
    renderer = Renderer(at.site_of(book, titles), theme)
    try:
        for path, data in renderer.assets().items():
            files.put(path, data, Place("theme"))
    except Broken as fault:
        problems.error(Place(fault.path, fault.line), fault.why)
    for page, place in _pages(book, recipes, problems, cache):
        try:
            files.put(page.path, renderer.page(page), place)
        except Broken as fault:
            problems.error(Place(fault.path, fault.line), fault.why)
    for recipe in recipes:
        files.put(at.figures_path(recipe.plan.recipe.slug), figures_json(recipe.plan), recipe.plan.recipe.place)
    return files.sorted(at.site_of(book, titles).address)


def working_of(plan: Plan, made: Sequence[Step]) -> Working:
    """The working of everything that a recipe's pages show, and of nothing that only the pantry knows."""
    said = tuple(part for step in made for words in step.sentences for part in words if isinstance(part, Value))
    groups: list[tuple[str, Iterable[Value]]] = [("The recipe", _written(plan.recipe))]
    for field in fields(plan.figures):
        values = values_in(getattr(plan.figures, field.name), without=(Malt, Sugar, Hop, HoppedKit, Yeast))
        groups.append((TITLES.get(field.name, capital(field.name.replace("_", " "))), values))
    return working([*groups, ("The method", said)], plan.named)


def _written(recipe: Recipe) -> Iterator[Value]:
    """What the recipe's own file gives, and what its pages show of the pantry's."""
    for value in values_in(recipe):
        if isinstance(value, Given) and value.place and value.place.path == recipe.place.path:
            yield value
    yield from (hop.alpha for hop in recipe.hops)
    yield from (sugar.colour for sugar in recipe.sugars)


def _pages(
    book: Book, recipes: Sequence[_Recipe], problems: Problems, cache: FrameCache
) -> Iterator[tuple[Page, Place]]:
    """Every page, and where in the book it comes from."""
    plans, home = [recipe.plan for recipe in recipes], Place("book.yaml")
    title = plain(book.title)
    yield Page(at.INDEX, "index.html", title, _description(book), index_page(book, plans)), home
    mends = _Mends(book, plans)
    for page in book.pages:
        place = Place(f"pages/{page.slug}.md")
        path = at.page_path(page.slug)
        text = _prose(page.prose, path, place, Anchors("main"), mends, problems)
        view = {"title": line(page.title), "prose": text}
        yield Page(path, "page.html", f"{plain(page.title)} – {title}", plain(page.title), view), place
    for count, recipe in enumerate(recipes):
        neighbours = tuple(
            Link(at.recipe_path(plans[n].recipe.slug), plain(plans[n].recipe.title)) if 0 <= n < len(plans) else None
            for n in (count - 1, count + 1)
        )
        for made in _recipe_pages(recipe, title, (neighbours[0], neighbours[1]), mends, problems, cache):
            yield made, recipe.plan.recipe.place
    sources = sources_page(plans, (value for recipe in recipes for value in _shown(recipe)))
    yield (
        Page(at.SOURCES, "sources.html", f"Sources – {title}", "What every figure of the book rests on.", sources),
        home,
    )


def _recipe_pages(
    recipe: _Recipe,
    book: str,
    neighbours: tuple[Link | None, Link | None],
    mends: _Mends,
    problems: Problems,
    cache: FrameCache,
) -> Iterator[Page]:
    plan = recipe.plan
    slug, title, about = plan.recipe.slug, plain(plan.recipe.title), plain(plan.recipe.summary)
    here, card, work = at.recipe_path(slug), at.card_path(slug), at.working_path(slug)
    text = _prose(plan.recipe.prose, here, plan.recipe.place, Anchors(*SECTIONS), mends, problems)
    view = recipe_page(
        plan,
        Shown(recipe.working, here, work),
        steps=recipe.steps,
        prose=text,
        neighbours=neighbours,
        cache=cache,
    )
    yield Page(here, "recipe.html", f"{title} – {book}", about, view)
    shown = Shown(recipe.working, card, work)
    yield Page(card, "card.html", f"{title}, card – {book}", about, card_page(plan, shown, recipe.steps))
    working_view = WorkingPage(line(plan.recipe.title), here, recipe.working)
    words = f"How every figure of {title} is worked out."
    yield Page(work, "working.html", f"{title}, working – {book}", words, working_view)


def _shown(recipe: _Recipe) -> Iterator[Value]:
    yield from values_in(recipe.plan.figures)
    yield from (part for step in recipe.steps for words in step.sentences for part in words if isinstance(part, Value))


def _description(book: Book) -> str:
    return f"{plain(book.title)}, by {book.author}" if book.author else plain(book.title)


def _prose(text: str, path: str, place: Place, anchors: Anchors, mends: _Mends, problems: Problems) -> Markup:
    def lost(address: str) -> None:
        problems.warning(place, "a link that leads nowhere", within=address, expected="a file of this book")

    return prose(text, under=1, anchors=anchors, mend=mends.for_page(path, place.path), lost=lost)


class _Mends:
    """Knows which file of the book became which page."""

    def __init__(self, book: Book, plans: Sequence[Plan]) -> None:
        self._pages = {plan.recipe.place.path: at.recipe_path(plan.recipe.slug) for plan in plans}
        self._pages |= {f"pages/{page.slug}.md": at.page_path(page.slug) for page in book.pages}
        self._there = {at.INDEX, at.SOURCES, *self._pages.values()}

    def for_page(self, here: str, source: str) -> Callable[[str], str | None]:
        """What a link written in the file ``source`` is on the page ``here``."""

        def mend(address: str) -> str | None:
            if elsewhere(address):
                return address
            path, mark, fragment = address.partition("#")
            if not path:
                return address if fragment else None
            wanted = normpath(join(dirname(source), unquote(path)))
            there = self._pages.get(wanted) or (wanted if wanted in self._there else None)
            return way(here, there) + mark + fragment if there else None

        return mend


class _Files:
    """Collects the files; a second producer of one is a problem, also where only a careless disk takes them for one."""

    def __init__(self, problems: Problems) -> None:
        self._problems = problems
        self._files: dict[str, bytes] = {}
        self._places: dict[str, tuple[str, Place]] = {}

    def put(self, path: str, data: bytes, place: Place) -> None:
        folded = path.casefold()
        if folded in self._places:
            other, first = self._places[folded]
            self._problems.error(place, f'"{path}" is made twice', expected=f"another name: {first} makes {other}")
            return
        self._places[folded] = path, place
        self._files[path] = data

    def sorted(self, address: str) -> dict[str, bytes]:
        """All files, with a list of the pages where the book has an address."""
        html = [path for path in self._files if path.endswith(".html")]
        if address:
            self.put("sitemap.xml", sitemap(address, html), Place("book.yaml"))
            self.put("robots.txt", robots(address), Place("book.yaml"))
        return {path: self._files[path] for path in sorted(self._files)}
