"""What the page for the day of a brew is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.site.beer.brews import Brew
from gristbook.site.beer.stages import Stage, stages
from gristbook.site.learn.learning_pages import explained
from gristbook.site.pages import Link
from gristbook.site.printing import Printing
from gristbook.site.prose import line


@dataclass(frozen=True, slots=True)
class DayPage:
    """The whole method of one brew; ``made`` is what its edition is, "" of the recipe as written."""

    brew: Brew
    title: Markup
    made: str
    method: tuple[Stage, ...]
    learn: Mapping[str, tuple[Link, ...]]


def day_page(brew: Brew, printing: Printing, made: str = "") -> DayPage:
    """The day of one brew, its words linked to the glossary."""
    return DayPage(
        brew=brew,
        title=line(brew.plan.recipe.title),
        made=made,
        method=tuple(stages(brew.steps, printing.written.desk.glossary.on(brew.at.day))),
        learn=explained(printing.book.learning),
    )
