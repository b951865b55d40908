"""What an equation says of itself, in its annotations and on its data sheet, and that it leaves nothing out."""

import ast
import inspect
from typing import Annotated

import pytest

from gristbook.equations import sources
from gristbook.equations.registry import Equation, Valid, equation, filed

REFUSES = {"not_negative", "positive", "fraction", "no_more", "Refusal"}


def called_in(function: object) -> set[str]:
    tree = ast.parse(inspect.getsource(function))  # type: ignore[arg-type]
    return {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}


def may_refuse(function: object) -> bool:
    """Whether a function, or one of ours that it calls, holds a number to physics."""
    called = called_in(function)
    ours = (inspect.getmodule(function).__dict__.get(name) for name in called)  # type: ignore[union-attr]
    return bool(called & REFUSES) or any(
        inspect.isfunction(it) and it.__module__.startswith("gristbook.equations") and may_refuse(it) for it in ours
    )


@pytest.mark.parametrize("equation", filed(), ids=lambda equation: equation.name)
def test_an_equation_that_refuses_says_when(equation: Equation) -> None:
    sheet = inspect.getdoc(equation.function) or ""
    assert ("\nRefuses " in sheet) >= bool(called_in(equation.function) & REFUSES), "refuses, and does not say when"
    assert ("\nRefuses " in sheet) <= may_refuse(equation.function), "says that it refuses, and nothing does"
    assert "Raises" not in sheet


@pytest.mark.parametrize("equation", filed(), ids=lambda equation: equation.name)
def test_an_argument_is_told_in_words_that_leave_its_unit_to_the_unit(equation: Equation) -> None:
    for name, argument in equation.arguments.items():
        assert argument.words.strip("., ") == argument.words != "", name
        assert f"[{argument.unit}]" not in argument.words, name
        assert argument.symbol, name


def no_unit(*, mass: float) -> Annotated[float, "kg"]:
    return mass


def a_unit_of_nobodys(*, mass: Annotated[float, "stone", "m", "of the malt"]) -> Annotated[float, "kg"]:
    return mass


def no_words(*, mass: Annotated[float, "kg", "m"]) -> Annotated[float, "kg"]:
    return mass


def two_ranges(
    *, mass: Annotated[float, "kg", "m", "of the malt", Valid(0, 1, "one"), Valid(0, 2, "two")]
) -> Annotated[float, "kg"]:
    return mass


def no_unit_of_the_result(*, mass: Annotated[float, "kg", "m", "of the malt"]) -> float:
    return mass


def not_by_keyword(mass: Annotated[float, "kg", "m", "of the malt"]) -> Annotated[float, "kg"]:
    return mass


@pytest.mark.parametrize(
    "function", [no_unit, a_unit_of_nobodys, no_words, two_ranges, no_unit_of_the_result, not_by_keyword]
)
def test_an_annotation_that_leaves_something_out_is_refused_at_import(function: object) -> None:
    before = filed()
    with pytest.raises(TypeError):
        equation(source=sources.DEFINITION, formula="m = m")(function)  # type: ignore[type-var]
    assert filed() == before
