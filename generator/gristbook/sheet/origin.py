"""Where a number comes from: somebody gave it, an equation or plain arithmetic made it, or somebody decided on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto
from typing import TYPE_CHECKING, TypeAlias

from gristbook.equations.registry import Equation
from gristbook.problems import Place

if TYPE_CHECKING:
    from gristbook.sheet.value import Value


class By(Enum):
    """Who gives a number."""

    AUTHOR = auto()
    """Whoever wrote the book: a recipe, a brewhouse, an edition, a price."""
    PLAN = auto()
    """A batch's file, where it keeps what was planned."""
    READER = auto()
    """Whoever read an instrument on the brew day and wrote it down."""
    PANTRY = auto()
    """Our reference data, or the author's own."""
    DEFAULT = auto()
    """Nobody: the reader of the text decided, since the author says nothing."""
    METHOD = auto()
    """A convention of the method: common practice, an example, a number reckoned on the way."""
    CONSTANT = auto()
    """A plain number in an equation's own unit, of which there is nothing to say."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something to say about a result: words, one bound or two in their unit, and words after them."""

    before: str
    bounds: tuple[float, ...]
    unit: str
    after: str

    def __str__(self) -> str:
        ends = " to ".join(f"{bound:g}" for bound in self.bounds)
        return f"{self.before} {ends}{f' {self.unit}' if self.unit else ''}{self.after}"


@dataclass(frozen=True, slots=True)
class Given:
    """A number that somebody wrote down: ``by`` whom, in ``words`` that a page shows, on a line where there is one.

    ``written`` is what an author typed, for whoever writes it out again. One standard deviation of it is ``sd``, under
    the name ``doubt``.
    """

    by: By
    words: str
    place: Place | None = None
    written: str = ""
    sd: float = 0.0
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Worked:
    """What a published equation gives for values by argument, and what there is to say about the result."""

    equation: Equation
    inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...]
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What plain arithmetic gives: a sum, a difference, a product or a quotient of ``parts``, times a change of units.

    ``slopes`` is how far the result moves with each part.
    """

    sign: str
    parts: tuple[Value, ...]
    slopes: tuple[float, ...]
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Decided:
    """A decision taken before the brew (a weight read off the scale): the number of ``of``, which is met as it is."""

    of: Value


@dataclass(frozen=True, slots=True)
class Read:
    """A reading of ``of``, out by what its instrument or its correction may be out: ``sd`` under the name ``doubt``."""

    of: Value
    sd: float
    doubt: str


@dataclass(frozen=True, slots=True)
class Taught:
    """What batches have taught, ``of`` a lineage that belongs to the brewhouse; all its doubts are one."""

    of: Value
    sd: float
    doubt: str


Origin: TypeAlias = Given | Worked | Reckoned | Decided | Read | Taught


def put_in(origin: Origin) -> Iterator[Value]:
    """The values that a number was made from; none for what is given. A decision was made from what led to it."""
    match origin:
        case Worked():
            for _, value in origin.inputs:
                yield from value if isinstance(value, tuple) else (value,)
        case Reckoned():
            yield from origin.parts
        case Decided() | Read() | Taught():
            yield from put_in(origin.of.origin)
