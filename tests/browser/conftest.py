"""A real browser, where there is one, and the demo book built for it to open from disk."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
import the_demo
from playwright.sync_api import Browser, Page, sync_playwright

from gristbook.site.disk.write import write

HERE = Path(__file__).parent
NAMES = ("chromium", "chromium-browser")
REQUIRED = os.environ.get("GRISTBOOK_BROWSER") == "required"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything in this folder needs a browser."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    found = next((path for path in map(shutil.which, NAMES) if path), None)
    if found is None:
        reason = f"no browser here: none of {', '.join(NAMES)} is on the path"
        pytest.fail(reason) if REQUIRED else pytest.skip(reason)
    with sync_playwright() as play:
        launched = play.chromium.launch(executable_path=found, args=["--no-sandbox"])  # containers run as root
        yield launched
        launched.close()


@pytest.fixture(scope="session")
def site(demo_site: the_demo.Site, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo book as a reader opens it: a folder of files."""
    folder = tmp_path_factory.mktemp("site")
    write(demo_site.files, folder)
    return folder


@dataclass(slots=True)
class Opened:
    """A page in the browser, and everything that it complained of or asked for while it was open."""

    page: Page
    complaints: list[str] = field(default_factory=list)
    asked_for: list[str] = field(default_factory=list)

    def listen(self) -> None:
        self.page.on("console", lambda message: self.complaints.append(f"{message.type}: {message.text}"))
        self.page.on("pageerror", lambda fault: self.complaints.append(f"script: {fault}"))
        self.page.on("requestfailed", lambda request: self.complaints.append(f"not loaded: {request.url}"))
        self.page.on("request", lambda request: self.asked_for.append(request.url))


@pytest.fixture(scope="session")
def opened(browser: Browser, site: Path) -> Callable[..., AbstractContextManager[Opened]]:
    """`with opened("index.html", width=320) as it:` a page of the site, fully loaded, that no other page was chosen on.

    What opens with scripts opens in one window after another page, which costs a fifth of a new one: what a reader
    chose there is forgotten in between. After a test that failed, and without scripts, the window is a new one.
    """
    kept: list[Opened] = []

    def window(*, scripts: bool) -> Opened:
        it = Opened(browser.new_context(java_script_enabled=scripts).new_page())
        it.listen()
        return it

    @contextmanager
    def open_page(name: str, *, width: int = 1280, scheme: str = "light", scripts: bool = True) -> Iterator[Opened]:
        it = kept.pop() if scripts and kept else window(scripts=scripts)
        it.page.goto("about:blank")  # what the page before was still loading is given up here
        it.page.set_viewport_size({"width": width, "height": 900})
        it.page.emulate_media(media="null", color_scheme="dark" if scheme == "dark" else "light")
        it.complaints.clear()
        it.asked_for.clear()
        it.page.goto((site / name).as_uri(), wait_until="load")
        yield it
        if scripts:
            it.page.evaluate("localStorage.clear()")
            kept.append(it)
        else:
            it.page.context.close()

    return open_page


_BEER = rf"(?:{'|'.join(the_demo.SLUGS)})"
KINDS = {
    "index.html": r"index\.html",
    "find.html": r"find\.html",
    "pots.html": r"pots\.html",
    "table.html": r"table\.html",
    "chapters/first-boils.html": r"chapters/[^/]+\.html",
    "quillmere-best.html": rf"{_BEER}\.html",
    "quillmere-best/day.html": rf"{_BEER}/day\.html",
    "quillmere-best/figures.html": rf"{_BEER}/figures\.html",
    "quillmere-best/card.html": rf"{_BEER}/card\.html",
    "quillmere-best/buy.html": rf"{_BEER}/buy\.html",
    "quillmere-best/working.html": rf"{_BEER}/working\.html",
    "quillmere-best/10-l-in-stove.html": rf"{_BEER}/(?!brew-)(?:(?!buy|card|day|figures|working)[^/-]+-?)+\.html",
    "quillmere-best/10-l-in-stove-day.html": rf"{_BEER}/[^/]+-day\.html",
    "quillmere-best/10-l-in-stove-figures.html": rf"{_BEER}/[^/]+-figures\.html",
    "quillmere-best/10-l-in-stove-card.html": rf"{_BEER}/[^/]+-card\.html",
    "quillmere-best/10-l-in-stove-buy.html": rf"{_BEER}/[^/]+-buy\.html",
    "quillmere-best/10-l-in-stove-working.html": rf"{_BEER}/(?!brew-)[^/]+-working\.html",
    "quillmere-best/brew-2026-02-10.html": rf"{_BEER}/brew-(?!.*-working\.)[^/]+\.html",
    "quillmere-best/brew-2026-02-10-working.html": rf"{_BEER}/brew-[^/]+-working\.html",
    "brews.html": r"brews\.html",
    "brewhouses.html": r"brewhouses\.html",
    "brewhouses/mill.html": r"brewhouses/(?:(?!working)[^/-]+-?)+\.html",
    "brewhouses/mill-working.html": r"brewhouses/[^/]+-working\.html",
    "about.html": r"about\.html",
    "cautions.html": r"cautions\.html",
    "sources.html": r"sources\.html",
    "glossary.html": r"glossary\.html",
    "ingredients/index.html": r"ingredients/index\.html",
    "ingredients/pale-ale-malt.html": r"ingredients/(?!index)[^/]+\.html",
    "styles/index.html": r"styles/index\.html",
    "styles/best-bitter.html": r"styles/(?!index)[^/]+\.html",
    "learning/index.html": r"learning/index\.html",
    "learning/water.html": r"learning/(?!index)[^/]+\.html",
}
"""One page of every kind, and the pattern that all pages of the kind fit: the way in, what finds a beer, a chapter
and what to buy for it, a recipe with its day, figures, card, list and working, an edition with its own, a brew with
its working, all brews, the brewhouses and each of them, the author's page, the cautions, the sources, and what is
learnt and looked up."""

USUAL = "quillmere-best"
BEERS = [pytest.param(slug, marks=() if slug == USUAL else pytest.mark.slow) for slug in the_demo.SLUGS]
CHOICES = {"kind": tuple(KINDS), "beer": BEERS}
"""What a test is run for once each, by the name of its argument; where there is no time for it, for one beer."""


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """`kind` is one page of every kind, `beer` every recipe of the demo book."""
    for name, choices in CHOICES.items():
        if name in metafunc.fixturenames:
            metafunc.parametrize(name, choices)


@pytest.fixture(scope="session")
def all_pages(site: Path) -> list[str]:
    """Every page that is to be found, none of those that only lead on from an old address."""
    found = (
        path for path in site.rglob("*.html") if b'<meta name="robots" content="noindex">' not in path.read_bytes()
    )
    return sorted(path.relative_to(site).as_posix() for path in found)


@pytest.fixture(scope="session")
def pages_of(all_pages: list[str]) -> Callable[[str], list[str]]:
    """`pages_of("quillmere-best")`: every page of a beer, its own first, and those of all its editions."""
    return lambda beer: [f"{beer}.html", *(page for page in all_pages if page.startswith(f"{beer}/"))]


@pytest.fixture(scope="session")
def other_pages(all_pages: list[str], pages_of: Callable[[str], list[str]]) -> list[str]:
    """The pages of no beer in particular."""
    return sorted({*all_pages} - {page for beer in the_demo.SLUGS for page in pages_of(beer)})


@pytest.fixture(scope="session")
def kinds() -> dict[str, str]:
    """A page of every kind, with the pattern of its kind."""
    return dict(KINDS)
