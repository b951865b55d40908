"""A style of beer: the spans within which its examples usually lie."""

from __future__ import annotations

from dataclasses import dataclass, field

from gristbook.problems import Place


@dataclass(frozen=True, slots=True)
class Style:
    """What it is in words, and low and high of each figure.

    Gravity as SG, strength in % by volume, bitterness in IBU, colour in SRM; ``place`` is the line that names it.
    """

    name: str
    family: str
    about: str
    original_gravity: tuple[float, float]
    final_gravity: tuple[float, float]
    strength: tuple[float, float]
    bitterness: tuple[float, float]
    colour: tuple[float, float]
    source: str
    place: Place | None = field(default=None, compare=False)
