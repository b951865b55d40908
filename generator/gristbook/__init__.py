"""Gristbook turns a folder of plain-text beer recipes into a cookbook, with every figure worked out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gristbook.interface import Book

__all__ = ["read"]
__version__ = "0.1.0"


def read(folder: str | Path) -> Book:
    """Read a book's folder; what is wrong in it stands in the book's ``problems``, and is never raised.

    >>> book = read("recipes")
    >>> len(book.problems), book.recipes[:2]
    (0, ('boathouse-lager', 'coopers-alt'))
    >>> plan = book.plan("quillmere-best", batch="10 L")
    >>> gravity = plan["original-gravity"]
    >>> gravity.low < gravity.number < gravity.high, gravity.unit, gravity.mover
    (True, 'SG', 'mash efficiency')

    Raises
    ------
    OSError
        The disk refuses.
    """
    from gristbook.interface import Book

    return Book(Path(folder))
