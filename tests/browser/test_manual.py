"""The author's manual in a real browser: quiet, self-contained, and no wider than a phone."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest

from gristbook import cli

from .test_pages import overflow


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("away") / "my-manual"
    assert cli.main(["manual", str(folder)]) == cli.FINE
    return sorted([*folder.glob("*.html"), *folder.glob("learning/*.html")])


@pytest.mark.parametrize(("width", "scheme"), [(320, "light"), (320, "dark"), (1280, "light")])
def test_every_page_of_the_manual_is_quiet_and_fits_its_window(
    opened: Callable[..., AbstractContextManager[Any]], pages: list[Path], width: int, scheme: str
) -> None:
    assert len(pages) > 30
    for path in pages:
        with opened(path, width=width, scheme=scheme) as it:
            assert it.complaints == [], path.name
            assert [url for url in it.asked_for if not url.startswith("file://")] == []
            assert overflow(it.page) == [], path.name
