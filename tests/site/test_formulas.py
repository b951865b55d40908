"""Formulas with numbers in them: the numbers, worked out by Python, give the result that the page shows."""

from __future__ import annotations

import math
import re

import pytest

from gristbook.sheet.origin import Worked
from gristbook.sheet.value import lineage
from gristbook.site.amounts import exact
from gristbook.site.beer.formulas import drawn, with_numbers

_POWERS = str.maketrans({"²": "**2", "³": "**3", "×": "*", "·": "*", "−": "-"})


def _value(text: str) -> float:
    """The right side of a formula without letters, worked out by Python's own arithmetic."""
    plain = text.partition(" = ")[2].translate(_POWERS).replace("^", "**")
    plain = re.sub(r"(?<=[\d)]) (?=\()", " * ", re.sub(r"\be\*\*", "math.e**", plain))
    return float(eval(plain, {"math": math, "__builtins__": {}}))


def test_the_numbers_put_into_a_formula_give_its_result(demo) -> None:  # type: ignore[no-untyped-def]
    """Tolerance: five significant digits are printed, and differences of gravities lose two of them."""
    checked: set[str] = set()
    for plan in demo.plans:
        for value, made in ((value, value.made) for value in lineage(*plan.named.values())):
            if not isinstance(made, Worked):
                continue
            numbers = {
                made.equation.arguments[name].symbol: tuple(
                    exact(v.number, v.unit and "SG" * (v.unit == "SG")) for v in it
                )
                if isinstance(it, tuple)
                else exact(it.number, "SG" * (it.unit == "SG"))
                for name, it in made.inputs
            }
            text = with_numbers(made.equation.formula, numbers)
            if text and not re.search(r"[^\W\d_e]", text.partition(" = ")[2].replace("tanh", "")):
                assert _value(text) == pytest.approx(value.number, rel=2e-3, abs=1e-4), text
                checked.add(made.equation.name)
    assert len(checked) > 30, sorted(checked)


@pytest.mark.parametrize(
    ("formula", "numbers", "expected"),
    [
        ("E = m p η", {"m": "3.6", "p": "0.79", "η": "0.74"}, "E = 3.6 × 0.79 × 0.74"),
        ("E = E_db (1 − M)", {"E_db": "0.81", "M": "0.03"}, "E = 0.81 × (1 − 0.03)"),
        ("V_b = V_k + b t / 60", {"V_k": "21.5", "b": "3", "t": "60"}, "V_b = 21.5 + 3 × 60 / 60"),
        ("V_h = V ρ(20 °C) / ρ(T)", {"V": "24.5", "T": "99.8"}, "V_h = 24.5 × ρ(20 °C) / ρ(99.8)"),
        ("P = 1111.14 S − 630.272 S²", {"S": "1.05"}, "P = 1111.14 × 1.05 − 630.272 × 1.05²"),
        ("E = Σ eᵢ", {"e": ("2.1", "−0.1")}, "E = 2.1 + (−0.1)"),
        ("IBU = Σ IBU_i", {"IBU_i": ("21",)}, "IBU = 21"),
        ("RA = Σ Eᵢ aᵢ / Σ Eᵢ", {"E": ("1", "2"), "a": ("3", "4")}, ""),
        ("vol = table(T)", {"T": "19"}, "vol = table(19)"),
        ("SRM = 12.7 × A430", {"A": "1"}, ""),
        ("y = n × M(CO₂) / M", {"n": "4", "M": "342.3"}, "y = 4 × M(CO₂) / 342.3"),
        ("g' = g × AA / AA'", {"g": "20", "AA": "0.05"}, "g' = 20 × 0.05 / AA'"),
    ],
)
def test_numbers_stand_where_the_letters_stood(
    formula: str, numbers: dict[str, str | tuple[str, ...]], expected: str
) -> None:
    assert with_numbers(formula, numbers) == expected


def test_a_formula_is_drawn_with_its_powers_and_escaped() -> None:
    assert str(drawn("U = 0.000125^(SG − 1) × x_db^2 <")) == (
        "U = 0.000125<sup>SG − 1</sup> × x<sub>db</sub><sup>2</sup> &lt;"
    )
