"""Where a number comes from: somebody gave it, an equation or plain arithmetic made it, or somebody decided on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum, auto
from typing import TYPE_CHECKING, TypeAlias

from gristbook.equations.registry import Equation
from gristbook.problems import Place
from gristbook.sheet.doubts import Doubts, Ends
from gristbook.sheet.signs import TAKEN, Sign

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

    ``written`` is what an author typed, for whoever writes it out again. ``ends`` are how far its low and its high lie
    from it, under the name ``doubt``; `None` where nobody said how sure it is, which is another thing than certain.
    ``us`` is what was typed in units of the United States.
    """

    by: By
    words: str
    place: Place | None = None
    written: str = ""
    ends: Ends | None = None
    doubt: str = ""
    us: bool = False


@dataclass(frozen=True, slots=True)
class Worked:
    """What a published equation gives for values by argument, and what there is to say about the result."""

    equation: Equation
    inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...]
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What plain arithmetic gives: a sum, difference, product or quotient of ``parts``, times a change of units."""

    sign: Sign
    parts: tuple[Value, ...]
    factor: float = 1.0
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Decided:
    """A decision taken before the brew (a weight read off the scale): the number of ``of``, which is met as it is."""

    of: Value


@dataclass(frozen=True, slots=True)
class Read:
    """``of`` as it comes out or is read: out by what a scale, a mark, an instrument or a correction may be out."""

    of: Value
    doubts: Doubts


@dataclass(frozen=True, slots=True)
class Taught:
    """What batches have taught, ``of`` a lineage that belongs to the brewhouse; its doubts are the lesson's own."""

    of: Value
    doubts: Doubts


@dataclass(frozen=True, slots=True)
class Chosen:
    """``of``, which is one of several models' ``options`` by name; nobody knows which of them is nearest.

    Choices of one ``name`` are one choice, wherever they are met.
    """

    of: Value
    name: str
    options: Mapping[str, Value]


Origin: TypeAlias = Given | Worked | Reckoned | Decided | Read | Taught | Chosen


def numbers_of(inputs: tuple[tuple[str, Value | tuple[Value, ...]], ...]) -> dict[str, float | tuple[float, ...]]:
    """The bare numbers of what is put into an equation, by argument."""
    return {
        name: tuple(member.number for member in value) if isinstance(value, tuple) else value.number
        for name, value in inputs
    }


def put_in(origin: Origin) -> Iterator[Value]:
    """The values that a number was made from; none for what is given. A decision was made from what led to it."""
    match origin:
        case Worked():
            for _, value in origin.inputs:
                yield from value if isinstance(value, tuple) else (value,)
        case Reckoned():
            yield from origin.parts
        case Decided() | Read() | Taught() | Chosen():
            yield from put_in(origin.of.origin)


def beneath(origin: Origin) -> Iterator[Value]:
    """The values whose doubts a number has: none for a decision or a lesson, every option for a choice."""
    match origin:
        case Decided() | Taught():
            return
        case Reckoned(sign=sign) if sign in TAKEN:
            return
        case Read(of=of):
            yield of
        case Chosen():
            yield from origin.options.values()
        case _:
            yield from put_in(origin)


def post_order(
    values: Iterable[Value], opens: Callable[[Value], bool], into: Callable[[Origin], Iterator[Value]] = put_in
) -> Iterator[Value]:
    """Every value that ``values`` rest on, each once, what goes in before what comes out.

    A value that does not open is met, and nothing behind it.
    """
    seen: set[int] = set()
    stack: list[tuple[Value, bool]] = [(value, False) for value in reversed([*values])]
    while stack:
        value, opened = stack.pop()
        if opened:
            yield value
        elif id(value) not in seen:
            seen.add(id(value))
            stack.append((value, True))
            if opens(value):
                stack.extend((parent, False) for parent in reversed([*into(value.origin)]))
