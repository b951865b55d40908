"""What an equation says of itself: when it refuses, in the words of its own data sheet."""

import ast
import inspect

import pytest

from gristbook.equations.registry import Equation, filed

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
