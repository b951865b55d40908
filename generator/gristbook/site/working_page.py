"""What the page of a recipe's working is given."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from gristbook.site.working import Working


@dataclass(frozen=True, slots=True)
class WorkingPage:
    """The whole working of one recipe, and the way back to it."""

    title: Markup
    recipe: str
    working: Working
