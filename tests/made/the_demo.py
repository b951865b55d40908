"""The demo book for the tests of all rooms: worked out once in each process, and made into a site once a run."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from filelock import FileLock
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.sheet.value import Value, lineage
from gristbook.site.pages import Page
from gristbook.site.render import Renderer
from gristbook.site.working.walk import values_in
from gristbook.targets.advice.advice import advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.batches.brewed import Brewed, brewed
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, editions_of
from gristbook.targets.figures import Plan
from gristbook.targets.hops.packets import packet_rows
from gristbook.targets.method.whole import steps
from gristbook.targets.plan import plan_book
from gristbook.targets.water.verdict import verdict
from gristbook.text.book import read_book

DEMO = Path(__file__).parents[2] / "recipes"
SLUGS = tuple(sorted(path.stem for path in DEMO.glob("*.md")))
READING = Problems()
"""Whatever is wrong with it: nothing, once it is read."""


@cache
def done() -> Brewed:
    """The book as it was read, its brews, and what they taught."""
    read = read_book(DEMO, READING)
    assert read is not None
    return brewed(read, READING)


def book() -> Book:
    """The book with what its brews taught."""
    return done().book


@cache
def plans() -> Mapping[str, Plan]:
    """Every recipe worked out, by its slug, in the order of the book."""
    found = {plan.recipe.slug: plan for plan in plan_book(book(), READING)}
    assert set(found) == set(SLUGS)
    assert [str(problem) for problem in READING] == []
    return found


@cache
def editions(slug: str) -> tuple[MadeEdition | RefusedEdition, ...]:
    """A recipe's editions, and why there is no more of them."""
    return editions_of(plans()[slug], book())


def made(slug: str) -> list[MadeEdition]:
    """The editions that can be brewed."""
    return [it for it in editions(slug) if isinstance(it, MadeEdition)]


@cache
def values() -> tuple[Value, ...]:
    """Every value of the book's plans, editions, batches and lessons, and all that they rest on, each once."""
    read, brews = done(), [*plans().values(), *(it.plan for slug in SLUGS for it in made(slug))]
    said = tuple((it, steps(it), packet_rows(it), verdict(it), advise(it, ROWS)) for it in brews)
    return tuple(lineage(*values_in((read.batches, read.lessons, read.book, said)), until=lambda _: False))


@dataclass(frozen=True, slots=True)
class Site:
    """The files of the site, what was wrong on the way, and the templates of pages, each with the type of its view."""

    files: Mapping[str, bytes]
    problems: tuple[str, ...]
    views: frozenset[tuple[str, type]]


def site(shared: Path, cache: FrameCache) -> Site:
    """Of all processes that share a folder, the first makes the site, and the others take what it made."""
    kept = shared / "demo.pickle"
    with FileLock(f"{kept}.lock"):
        if not kept.exists():
            kept.write_bytes(pickle.dumps(_site(cache)))
    found: Site = pickle.loads(kept.read_bytes())
    return found


def _site(cache: FrameCache) -> Site:
    views, problems, page = set[tuple[str, type]](), Problems(), Renderer.page

    def seen(self: Renderer, it: Page) -> bytes:
        views.add((it.template, type(it.view)))
        return page(self, it)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Renderer, "page", seen)
        brews = {"batches": done().batches, "lessons": done().lessons}
        files = make_site(book(), tuple(plans().values()), problems, cache, folder=DEMO, **brews)
    return Site(files, tuple(str(problem) for problem in problems), frozenset(views))
