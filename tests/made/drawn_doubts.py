"""Doubts as they are drawn: by name, as halves of normals or as lognormals, of the sizes that the table of doubts has.

A doubt is three numbers, the 5th, 50th and 95th hundredth. Nothing here knows how the book works its ranges out.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Triple: TypeAlias = tuple[float, float, float]

Z = 1.6448536269514722
"""Standard deviations to the 5th and to the 95th hundredth of a normal."""
TABLE = Path(__file__).parents[2] / "generator" / "gristbook" / "pantry" / "data" / "doubts.csv"

_NUMBER = r"[-−]?\d+(?:\.\d+)?"
_OWN = re.compile(rf"(?P<number>{_NUMBER})[^±]*?(?:±|\+/-)\s*(?P<half>{_NUMBER})")


@cache
def table() -> Mapping[str, Mapping[str, str]]:
    """The usual doubts, by the kind of number."""
    return {row["kind"]: row for row in csv.DictReader(TABLE.read_text(encoding="utf-8").splitlines())}


def usual(kind: str, number: float) -> Triple:
    """A number that is as sure as its kind usually is."""
    row = table()[kind]
    size, least = 1.0 if row["of"] == "unit" else abs(number), float(row["least"])
    return number + min(float(row["low"]) * size, -least), number, number + max(float(row["high"]) * size, least)


def typed(value: Any, kind: str) -> Triple:
    """What an author wrote: by his own ± where there is one, even ± 0, else as sure as its kind usually is.

    >>> from types import SimpleNamespace as It
    >>> typed(It(number=0.74, origin=It(written="74 % ± 4")), "efficiency")
    (0.7, 0.74, 0.78)
    >>> typed(It(number=1.5, origin=It(written="1.5 L")), "left in kettle")
    (1.05, 1.5, 2.1)
    """
    own = _OWN.search(value.origin.written)
    if own is None:
        return usual(kind, value.number)
    size = value.number / float(own["number"]) if float(own["number"]) else 1.0
    half = float(own["half"]) * size
    return value.number - half, value.number, value.number + half


@dataclass
class Doubts:
    """The draws of every doubt of one brew.

    ``shape`` is "halves", "lognormals" or "typical", which draws nothing. A name is one doubt, wherever it is met.
    """

    brew: str
    draws: int
    shape: str
    seed: int
    _standard: dict[str, Array] = field(default_factory=dict)

    def drawn(self, name: str, triple: Triple) -> Array:
        """A number with a doubt, in each draw; what lies high when the doubt lies low has its low above its high."""
        low, typical, high = triple
        assert low <= typical <= high or low >= typical >= high, (name, triple)
        if self.shape == "typical" or low == high:
            return np.full(self.draws, typical)
        if name not in self._standard:
            self._standard[name] = self._dice(name).standard_normal(self.draws)
        z = self._standard[name]
        if self.shape == "lognormals" and low < typical < high and not np.isclose(high - typical, typical - low):
            ratio = (high - typical) / (typical - low)
            return typical + (high - typical) * (ratio ** (z / Z) - 1) / (ratio - 1)
        return typical + np.where(z < 0, typical - low, high - typical) * z / Z

    def lot(self, name: str, of: int) -> NDArray[np.intp]:
        """Which of several, each as likely as the others, in each draw; the first where nothing is drawn."""
        if self.shape == "typical":
            return np.zeros(self.draws, dtype=np.intp)
        return self._dice(name).integers(of, size=self.draws)

    def _dice(self, name: str) -> np.random.Generator:
        return np.random.default_rng([self.seed, crc32(self.brew.encode()), crc32(name.encode())])


@dataclass
class OneByOne(Doubts):
    """No draws: first all doubts at their typical, then each named one at its low and at its high, one at a time.

    What is asked for besides is added to ``met``.
    """

    names: tuple[str, ...] = ()
    met: dict[str, None] = field(default_factory=dict)

    @classmethod
    def of(cls, names: Sequence[str]) -> OneByOne:
        return cls("", 1 + 2 * len(names), "typical", 0, names=tuple(names))

    def drawn(self, name: str, triple: Triple) -> Array:
        found = np.full(self.draws, triple[1], dtype=float)
        if triple[0] != triple[2]:
            self.met[name] = None
            if name in self.names:
                at = 1 + 2 * self.names.index(name)
                found[at], found[at + 1] = triple[0], triple[2]
        return found
