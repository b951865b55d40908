"""Every figure of a book, number and range, to hold one version of the house to another.

    python tests/demo/every_figure.py BOOK > before.json
    python tests/demo/every_figure.py BOOK before.json

The first prints every value in every plan, edition and batch; the second says which have moved, and ends with 1 if any
has. A number may move by 1e-9 of itself, an end of its range by 1e-5: what is left of rounding.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from math import isclose
from pathlib import Path

from gristbook.problems import Problems
from gristbook.sheet.value import Value
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.editions.make import MadeEdition, editions_of
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

ENOUGH = (1e-9, 1e-5, 1e-5)
"""How far the number, the low and the high may move, as shares of the number."""


def numbers(book: Path) -> dict[str, tuple[float, float, float]]:
    """Number, low and high of every value, by the way to it."""
    problems = Problems()
    read = read_book(book, problems)
    if read is None:
        raise SystemExit("\n".join(map(str, problems)))
    done = brewed(read, problems)
    found: dict[str, tuple[float, float, float]] = {}
    for batch in done.batches:
        found |= _values(batch, f"{batch.batch.recipe}/{batch.batch.slug}")
    for plan in plan_book(done.book, problems):
        found |= _values(plan.figures, plan.recipe.slug)
        for it in editions_of(plan, done.book):
            if isinstance(it, MadeEdition):
                found |= _values(it.plan.figures, f"{plan.recipe.slug}/{it.edition.slug}")
    return found


def _values(record: object, way: str) -> dict[str, tuple[float, float, float]]:
    return {where: (value.number, value.low, value.high) for where, value in _walk(record, way)}


def _walk(record: object, way: str) -> Iterator[tuple[str, Value]]:
    if isinstance(record, Value):
        yield way, record
    elif is_dataclass(record):
        for field in fields(record):
            yield from _walk(getattr(record, field.name), f"{way}.{field.name}")
    elif isinstance(record, tuple):
        for place, member in enumerate(record):
            yield from _walk(member, f"{way}[{place}]")


def moved(before: dict[str, list[float]], after: dict[str, tuple[float, float, float]]) -> Iterator[str]:
    """What sets the numbers of one version apart from another's, a line each."""
    yield from (f"{name}: is gone" for name in sorted(before.keys() - after.keys()))
    yield from (f"{name}: is new" for name in sorted(after.keys() - before.keys()))
    for name in sorted(before.keys() & after.keys()):
        size = max(map(abs, (*before[name], 1e-12)))
        ends = zip(before[name], after[name], ENOUGH, strict=True)
        if not all(isclose(old, new, rel_tol=0, abs_tol=most * size) for old, new, most in ends):
            yield f"{name}: {before[name]} became {list(after[name])}"


def main(book: str, before: str = "") -> int:
    """Print the numbers, or what has moved."""
    found = numbers(Path(book))
    if not before:
        print(json.dumps(found, indent=0))
        return 0
    told = list(moved(json.loads(Path(before).read_text("utf-8")), found))
    print("\n".join(told) if told else f"{len(found)} values are what they were")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
