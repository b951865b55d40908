"""What a page of working is given: its parts, in each part what was given and what comes by one formula."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.equations.registry import Source
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount
from gristbook.site.working.walk import Kettle


@dataclass(frozen=True, slots=True)
class Working:
    """Where the figures of one kettle stand on the page of their working.

    The values are kept so that none can be thrown away and its identity given to another.
    """

    anchors: Mapping[int, tuple[Value, str]]

    def anchor(self, value: Value) -> str:
        """Where on the page the value stands; "" for a constant of the method.

        Raises
        ------
        KeyError
            The working was not made from it.
        """
        return self.anchors[id(value)][1]


@dataclass(frozen=True, slots=True)
class Cell:
    """What one kettle makes of a figure, "" for nothing: the numbers put in, what comes out, and its range.

    ``anchor`` is where pages lead to, if not to the whole figure.
    """

    put_in: str = ""
    sign: str = ""
    result: str = ""
    us: str = ""
    between: Amount | None = None
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to say about a result: words, bounds as they are printed, and the words of the source after them.

    ``marks`` says of which kettles, where it is not said of all.
    """

    marks: str
    before: str
    bounds: Amount
    after: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A figure: a cell for every kettle, or one where all are alike, and what there is to say.

    ``label`` is "" where the title says it; ``marks`` says which kettles have it, where not all do.
    """

    anchor: str
    label: str
    marks: str
    cells: tuple[Cell, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True, slots=True)
class Key:
    """A letter of a formula, what it means, and where its numbers come from; no words where they were said above."""

    letter: Markup
    words: str
    href: str
    sums: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """Figures that come by one formula, and whose it is; plain arithmetic has no letters and is nobody's.

    ``above`` is where the page has told the formula already, and what it was told of.
    """

    anchor: str
    title: str
    marks: str
    formula: Markup
    keys: tuple[Key, ...]
    source: Source | None
    above: tuple[str, str]
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class GivenRow:
    """A figure that somebody wrote down, or that leads to another page; who says so, and on which line."""

    anchor: str
    label: str
    marks: str
    result: str
    between: str
    words: str
    line: int | None
    leads_to: str


@dataclass(frozen=True, slots=True)
class GivenFile:
    """What one file gives to a part; ``path`` is "" for what no file gives, ``marks`` says to which kettles."""

    path: str
    marks: str
    rows: tuple[GivenRow, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """The steps that lead to one part of a brew and stand in no part before it; ``others`` are other models'.

    ``about`` is a sentence on how they do, "" for none.
    """

    anchor: str
    title: str
    about: str
    comes_to: tuple[tuple[str, Amount], ...]
    given: tuple[GivenFile, ...]
    blocks: tuple[Block, ...]
    others: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Worksheet:
    """A page of working: the kettles on it, its parts, and every figure that it tells."""

    kettles: tuple[Kettle, ...]
    parts: tuple[Part, ...]
    told: tuple[Value, ...]
