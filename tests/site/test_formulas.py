"""Formulas as a page draws them; `test_printed_workings.py` holds what they give."""

from __future__ import annotations

from gristbook.site.working.formulas import drawn


def test_a_formula_is_drawn_with_its_powers_and_escaped() -> None:
    assert str(drawn("U = 0.000125^(SG − 1) × x_db^2 <")) == (
        "U = 0.000125<sup>SG − 1</sup> × x<sub>db</sub><sup>2</sup> &lt;"
    )
