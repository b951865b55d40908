"""An edition of a recipe: the same beer in another size, another brewhouse, or from malt extract."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from gristbook.problems import Place
from gristbook.sheet.value import Value

Source = Literal["as written", "grain", "extract"]


@dataclass(frozen=True, slots=True)
class Edition:
    """What an author asks for: ``name`` as written, ``slug`` its lasting address.

    ``batch`` and ``brewhouse`` are nothing where the recipe's own are meant; ``us`` says that it is weighed in ounces.
    """

    name: str
    slug: str
    batch: Value | None
    brewhouse: str | None
    source: Source
    us: bool
    place: Place

    def in_a_book(self, units: str) -> Edition:
        """The edition in a book of these units, by which one that names no size is weighed."""
        return replace(self, us=units == "US") if self.batch is None else self
