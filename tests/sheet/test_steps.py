"""Every step of the demo, worked out anew from what is printed of it: its formula or its sign, and what was put in."""

from collections.abc import Callable, Mapping
from functools import reduce
from math import ceil, floor, fsum
from operator import mul, sub, truediv

import pytest
import sums
import the_demo

from gristbook.sheet.origin import Note, Reckoned, Worked, put_in
from gristbook.sheet.units import PRODUCTS, QUOTIENTS, held
from gristbook.sheet.value import Value

SIGNS: Mapping[str, Callable[..., float]] = {
    "+": lambda *parts: fsum(parts),
    "−": lambda *parts: reduce(sub, parts),
    "×": lambda *parts: reduce(mul, parts),
    "÷": lambda *parts: reduce(truediv, parts),
    "in steps of": lambda number, step: max(1, floor(number / step + 0.5 + 1e-9)) * step if number > 0 else 0.0,
    "rounded up": lambda number: ceil(number - 1e-6),
}


def steps(kind: type[Worked] | type[Reckoned]) -> list[Value]:
    """The demo's steps of a kind; of those that make the same of the same numbers, one."""
    found: dict[object, Value] = {}
    for value in the_demo.values():
        made = value.made
        if isinstance(made, kind):
            name = made.equation.name if isinstance(made, Worked) else made.sign
            found.setdefault((name, value.unit, *((it.number, it.unit) for it in put_in(made))), value)
    return list(found.values())


def as_told(number: float, unit: str, notes: tuple[Note, ...]) -> float:
    """A result held to what its unit can be, where the step says that it is."""
    return held(number, unit)[0] if any(note.before == "held to" for note in notes) else number


def test_every_step_of_the_demo_follows_from_its_formula() -> None:
    worked = steps(Worked)
    assert len(worked) > 10_000
    for value in worked:
        made = value.made
        assert isinstance(made, Worked)
        letters = {
            made.equation.arguments[name].symbol: tuple(it.number for it in put)
            if isinstance(put, tuple)
            else put.number
            for name, put in made.inputs
        }
        number = as_told(sums.worked_out(made.equation.formula, letters, value.number), value.unit, made.notes)
        assert number == pytest.approx(value.number, rel=1e-9, abs=1e-12), f"{value.label}: {made.equation.formula}"


def test_every_sum_of_the_demo_follows_from_its_parts_and_their_units() -> None:
    reckoned = steps(Reckoned)
    assert len(reckoned) > 5_000
    for value in reckoned:
        made = value.made
        assert isinstance(made, Reckoned)
        units = tuple(part.unit for part in made.parts)
        table = {"×": PRODUCTS, "÷": QUOTIENTS}.get(made.sign, {})
        factor = table.get((units[0], units[-1]), (value.unit, 1.0))[1]
        number = as_told(SIGNS[made.sign](*(part.number for part in made.parts)) * factor, value.unit, made.notes)
        assert number == pytest.approx(value.number, rel=1e-9, abs=1e-12), f"{value.label}: {made.sign} {units}"
