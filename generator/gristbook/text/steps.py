"""What the lines of the mash and of the ferment have in common: one after another, and what is usual in their roles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gristbook.reading.lines import Line, readable
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value
from gristbook.text.parts.steps import PARTI_GYLE, Usual
from gristbook.text.values import Desk, said

THEN = r"\s*[,;]?\s*\bthen\b\s*"
"""Between two steps in one line."""


def step_lines(nodes: Sequence[Node], section: str, desk: Desk) -> Iterator[Line]:
    """The lines of a section, one a step, those that can be read."""
    pieces = [piece for it in nodes for piece in (it.split(THEN) if isinstance(it, Text) else [it])]
    return readable(pieces, lambda node: _line(node, section, desk))


def _line(node: Node, section: str, desk: Desk) -> Line:
    if isinstance(node, Text) and (found := node.split(PARTI_GYLE))[1:]:
        what = "one recipe is one beer: two from one mash are two recipes"
        desk.problems.error(found[0].place, what, within=node.value, expected="a file for each, with its own batch")
        raise Unreadable
    return desk.line(node, section)


def usual_in(line: Line, key: str, role: str | None, usual: Usual | None) -> Quantity | None:
    """A quantity of a step, else what is usual in its role, with a warning; `None` where neither says it."""
    if line.get(key):
        if (found := line.quantity(key)) is None:
            raise Unreadable
        return found
    taken = getattr(usual, key) if usual else ""
    if not taken:
        return None
    line.warning(f"no {key} for the {role}: {taken} is taken, which is usual", f"its own {key}")
    return line.read(Text(taken, line.place, exact=False), line.kinds[key])


def value_of(line: Line, key: str, read: Quantity, label: str, *, unit: str = "", factor: float = 1.0) -> Value:
    """A quantity of a step, the author's own or what is usual."""
    if line.get(key):
        return said(read, label, unit=unit, factor=factor)
    return said(read, label, unit=unit, factor=factor, by=By.DEFAULT, origin="by default, as usual in its role")


def missing(line: Line, found: dict[str, object], example: str) -> None:
    """Refuse a step that lacks something."""
    lacks = [key for key, it in found.items() if it is None]
    if lacks:
        raise line.error(f"no {' and no '.join(lacks)}", f"something like {example}")


def within_span(line: Line, read: Quantity, role: str, usual: Usual) -> None:
    """Warn of a temperature that is odd in its role."""
    if usual.span and line.get("temperature") and not usual.span[0] <= read.number <= usual.span[1]:
        low, high = usual.span
        line.warning(f"{read.text} is odd for the {role}", f"{low:g} to {high:g} °C", at=read)
