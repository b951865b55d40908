"""A value on a page: what is printed, what a machine reads, and the place in the working that it links to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

from gristbook.sheet.value import Value
from gristbook.site.addresses import way
from gristbook.site.amounts import Amount, amount, bare, span
from gristbook.site.dates import Day
from gristbook.site.working import Working


@dataclass(frozen=True, slots=True)
class Figure:
    """A value as a page prints it: its bare number, its text, its range, and its place in the working, if any."""

    bare: str
    text: Amount
    between: Amount | None
    mover: str
    href: str


Sentence: TypeAlias = tuple[str | Figure | Amount | Day, ...]
"""Words with figures and days among them, and amounts that have no place in the working."""


@dataclass(frozen=True, slots=True)
class Shown:
    """Makes figures for one page out of values whose working stands on another."""

    working: Working
    here: str
    there: str

    def __call__(self, value: Value) -> Figure:
        """The value as this page prints it, linked to its working.

        Raises
        ------
        KeyError
            The value is not in the working.
        """
        anchor = self.working.anchor(value)
        href = way(self.here, f"{self.there}#{anchor}") if anchor else ""
        return Figure(bare(value.number), amount(value), span(value), value.mover, href)

    def say(self, *parts: str | Value | Day | None) -> Sentence:
        """Words, days and values as words, days and figures; `None` is left out."""
        return tuple(self(part) if isinstance(part, Value) else part for part in parts if part is not None)


def unlinked(value: Value) -> Figure:
    """The value on a page that lies outside the recipe: printed, not linked."""
    return Figure(bare(value.number), amount(value), span(value), value.mover, "")


def joined(sentences: Iterable[Sentence], by: str) -> Sentence:
    """Several runs of words and figures as one."""
    out: list[str | Figure | Amount | Day] = []
    for sentence in sentences:
        out += [by, *sentence] if out else sentence
    return tuple(out)
