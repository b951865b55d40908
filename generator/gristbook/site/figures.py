"""A value on a page: what is printed, what a machine reads, and the place in the working that it links to.

What a page is made from holds values. A template that asks for one is given its figure, as the page at hand prints it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias, overload

from gristbook.sheet.value import Value
from gristbook.site.addresses import way
from gristbook.site.amounts import Amount, amount, bare, span
from gristbook.site.dates import Day
from gristbook.site.working.worksheet import Working


@dataclass(frozen=True, slots=True)
class Figure:
    """A value as a page prints it: its bare number, its text, its range, and its place in the working, if any."""

    bare: str
    text: Amount
    href: str
    value: Value

    @property
    def between(self) -> Amount | None:
        """Its range; nothing where both ends read alike."""
        return span(self.value)

    @property
    def mover(self) -> str:
        """What its range owes most to."""
        return self.value.mover


Part: TypeAlias = str | Value | Figure | Amount | Day

Sentence: TypeAlias = tuple[Part, ...]
"""Words with values, figures and days among them, and amounts that have no place in the working."""


def unlinked(value: Value) -> Figure:
    """The value on a page that lies outside the recipe: printed, not linked."""
    return _figure(value, "")


@dataclass(frozen=True, slots=True)
class Shown:
    """Makes figures for one page out of values whose working stands on another."""

    working: Working
    here: str
    there: str

    @overload
    def __call__(self, value: Value) -> Figure: ...
    @overload
    def __call__(self, value: Value | None) -> Figure | None: ...
    def __call__(self, value: Value | None) -> Figure | None:
        """The value as this page prints it, linked to its working; nothing for nothing.

        Raises
        ------
        KeyError
            The value is not in the working.
        """
        if value is None:
            return None
        anchor = self.working.anchor(value)
        return _figure(value, way(self.here, f"{self.there}#{anchor}") if anchor else "")

    def words(self, sentence: Sentence) -> Sentence:
        """A sentence with figures for its values."""
        return tuple(self(part) if isinstance(part, Value) else part for part in sentence)


@dataclass(frozen=True, slots=True)
class Among:
    """Makes figures for a page that shows values of several workings; what stands in none is not linked."""

    shown: tuple[Shown, ...]

    def __call__(self, value: Value) -> Figure:
        """The value, linked to the first working that it stands in."""
        found = next((it for it in self.shown if id(value) in it.working.anchors), None)
        return found(value) if found is not None else unlinked(value)


def _figure(value: Value, href: str) -> Figure:
    return Figure(bare(value.number), amount(value), href, value)


def seen(found: object, figure: Callable[[Value], Figure]) -> object:
    """What a template is given: the figure of a value, also in a list or a sentence; anything else as it is."""
    if isinstance(found, Value):
        return figure(found)
    if type(found) is tuple:
        for part in found:
            if type(part) is Value or type(part) is tuple:
                return tuple([seen(part, figure) for part in found])
    return found


def run(*parts: Part | None) -> Sentence:
    """Words and values in a row; `None` is left out."""
    return tuple(part for part in parts if part is not None)


def in_metric(sentence: Sentence) -> str:
    """A sentence as bare text, its values in metric units."""
    return "".join(amount(part).metric if isinstance(part, Value) else str(part) for part in sentence)


def joined(sentences: Iterable[Sentence], by: str) -> Sentence:
    """Several runs of words and values as one."""
    out: list[Part] = []
    for sentence in sentences:
        out += [by, *sentence] if out else sentence
    return tuple(out)
