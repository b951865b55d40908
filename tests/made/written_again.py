"""A recipe written from what was read of it, as a batch keeps it."""

from __future__ import annotations

from typing import Any

from gristbook.model.recipe import Recipe
from gristbook.text.begun import ONE_LINE, written
from gristbook.text.writing import sections_of


def as_text(recipe: Recipe, *, us: bool) -> str:
    """A recipe's file from its lines alone."""
    front: dict[str, Any] = {"title": recipe.title, "brewhouse": recipe.brewhouse}
    for name, lines in sections_of(recipe, us=us):
        front[name] = lines[0] if name in ONE_LINE else list(lines)
    return "\n".join(["---", *written(front), "---", ""])
