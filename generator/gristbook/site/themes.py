"""What lies in a theme: files that a site takes as they are, templates, and texts that become pages by another way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

TEXTS = "learning/"
"""The folder of a theme that holds texts."""

EXTRA = "extra.css"
"""An author's style sheet that every page has after ours, which stays."""

TEMPLATES = frozenset({".html", ".css"})


def assets(theme: Path) -> Mapping[str, Path]:
    """What pages are dressed in, by its path in the site: every file that is no page's template."""
    return {name: path for name, path in _files(theme) if path.suffix != ".html"}


def templates(theme: Path) -> Mapping[str, Path]:
    """What is filled in, by the name that other templates call it."""
    return {name: path for name, path in _files(theme) if path.suffix in TEMPLATES}


def _files(theme: Path) -> Iterator[tuple[str, Path]]:
    for path in sorted(theme.rglob("*")):
        name = path.relative_to(theme).as_posix()
        if path.is_file() and not name.startswith((TEXTS, ".")) and "/." not in name:
            yield name, path
