"""How sure each kind of number usually is: what nine brews in ten fall between where nobody says it better."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class Usual:
    """The 5th and 95th hundredth of a kind of number, about it: as a share of it, or ``in_unit``, at least ``least``.

    A share of what lies below nothing is signed as it is.
    """

    low: float
    high: float
    least: float
    in_unit: bool
    words: str
    source: str

    def about(self, number: float) -> tuple[float, float]:
        """How far low and high lie from a number.

        >>> usual("hops").about(20.0), usual("hops").about(100.0)
        ((-1.0, 1.0), (-2.0, 2.0))
        """
        size = 1.0 if self.in_unit else number
        if self.least > abs(size) * self.high:
            return -self.least, self.least
        return self.low * size, self.high * size


@cache
def usual_doubts() -> dict[str, Usual]:
    """Every kind of number, in the order of the brew."""
    text = (files("gristbook") / "pantry" / "data" / "doubts.csv").read_text(encoding="utf-8")
    return {
        row["kind"]: Usual(
            float(row["low"]),
            float(row["high"]),
            float(row["least"]),
            row["of"] == "unit",
            row["words"],
            row["source"],
        )
        for row in csv.DictReader(text.splitlines())
    }


def usual(kind: str) -> Usual:
    """How sure a kind of number usually is; a `KeyError` for what the table does not have."""
    return usual_doubts()[kind]
