"""What is in a thing that some must not eat or drink."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Brings:
    """Allergens by their names on a label; ``open`` where nobody knows whether that is all, ``said`` by the line."""

    names: tuple[str, ...] = ()
    open: bool = True
    said: bool = False


UNKNOWN = Brings()
NOTHING = Brings(open=False)
