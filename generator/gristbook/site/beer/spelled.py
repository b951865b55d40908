"""The working of a figure as lines of plain text: what was given first, then each step with its numbers put in."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.equations.sources import DEFINITION
from gristbook.sheet.origin import By, Given, Worked
from gristbook.sheet.value import Value, lineage
from gristbook.site.amounts import SPACE, exact
from gristbook.site.beer.steps import in_words


def spelled(value: Value) -> str:
    """All that a value rests on, a line each, what goes in before what comes out; the last line is the value's own.

    A constant of the method stands in the line that it is used in; what batches have taught is given and not opened.
    """
    return "\n".join(_lines(value)).replace(SPACE, " ")


def _lines(value: Value) -> Iterator[str]:
    told: set[str] = set()
    for step in lineage(value):
        line = _line(step) if step.label else ""
        if line and line not in told:
            told.add(line)
            yield line


def _line(value: Value) -> str:
    made, result = value.made, exact(value.number, value.unit)
    if isinstance(made, Given):
        at = f" ({made.place.path}:{made.place.line})" if made.place else ""
        return "" if made.by is By.CONSTANT else f"{value.label} = {result}: {made.words}{at}"
    formula, inserted = in_words(made)
    right = inserted.partition(" = ")[2] or inserted
    said = f"{value.label} = {f'{right} = ' if right and right != formula else ''}{result}: {formula}"
    if not isinstance(made, Worked):
        return said
    source = made.equation.source
    return f"{said}; {'by definition' if source is DEFINITION else source.citation}"
