"""The files of a site, for a test that asks for no more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from gristbook.charts.caches import FrameCache
from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.site import build
from gristbook.targets.figures import Plan


def make_site(
    book: Book, plans: Sequence[Plan], problems: Problems, cache: FrameCache, **more: Any
) -> Mapping[str, bytes]:
    """Every file of the site by its path, as `gristbook.site.build.make_site` takes its arguments."""
    return build.make_site(book, plans, problems, cache, **more).files
