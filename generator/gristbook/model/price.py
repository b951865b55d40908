"""What the author pays for things."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices by the pantry's name of a thing and then by what it is sold by: "kg", "L", "packs" or "pieces".

    ``currency`` is the author's own word for the money.
    """

    currency: str
    by_name: Mapping[str, Mapping[str, Value]]

    def of(self, name: str, base: str) -> Value | None:
        """The price of a thing by what it is sold by; `None` where the author states none."""
        return self.by_name.get(name.casefold(), {}).get(base)
