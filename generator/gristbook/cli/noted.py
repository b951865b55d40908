"""Notes that a learner sent, for `gristbook brew --from`: read, held to the brew, and filled in where a batch asks."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath

from gristbook.cli import Told
from gristbook.cli.report import report
from gristbook.interface import Plan
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Text
from gristbook.site.beer.stamp import mark
from gristbook.site.prose import plain
from gristbook.targets.batches.frozen import BOILING_POINT, frozen_plan
from gristbook.targets.method.whole import steps
from gristbook.text.batch import read_batch, read_measured
from gristbook.text.batch_vocabulary import MEASURED
from gristbook.text.begun import Blank
from gristbook.text.notes import Notes, read_notes
from gristbook.text.values import Desk

MEASURED_NAMES = tuple(row.name for row in MEASURED)
TOLD = ("ready", "tasted", "thrown away", "no lesson")
"""What a batch keeps beside its measurements."""


def notes_in(path: Path, problems: Problems) -> Notes:
    """The notes in a file; `Told` where they cannot be read."""
    notes = None
    try:
        notes = read_notes(path.read_text("utf-8"), path.name, problems)
    except (OSError, UnicodeDecodeError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "it is no text in UTF-8"
        problems.error(Place(path.name), f"these notes cannot be read: {why}")
    if notes is None or problems.errors():
        report(problems, path.parent)
        raise Told
    return notes


def filled_in(
    blanks: Sequence[Blank], said: Mapping[str, str | tuple[str, ...]], names: Collection[str]
) -> tuple[Blank, ...]:
    """The blanks with what notes say of them; a field that is not asked for, and is said, comes last."""
    asked = {blank.field for blank in blanks}
    more = (Blank(name, "") for name in names if name in said and name not in asked)
    return tuple(replace(blank, usual=said.get(blank.field, blank.usual)) for blank in (*blanks, *more))


def check(notes: Notes, path: Path, problems: Problems, found: Plan, file: Path, text: str) -> None:
    """Add what is wrong with notes, or with the batch made of them, and tell all; `Told` where that is an error.

    ``file`` is where the batch is to stand, ``text`` what it would be; ``problems`` are those of the notes at
    ``path``.
    """
    plan, folder = found.plan, file.parent.parent
    pantry, title = Pantry.load(folder / "pantry", Problems()), plain(plan.recipe.title)
    if notes.recipe is not None and notes.recipe.word != Text(title, notes.recipe.place).word:
        problems.error(notes.recipe.place, f'these are notes of "{notes.recipe.value}"', expected=title)
    now = mark(plan, steps(plan))
    if notes.mark is not None and notes.mark.value != now:
        what = f"brewed by the mark {notes.mark.value}, and the mark of this brew is now {now}"
        problems.warning(
            notes.mark.place, what, expected="the recipe of that day, for the batch keeps the one of today"
        )
    boiling = frozen_plan(plan)[BOILING_POINT]
    read_measured(notes.fields, PurePosixPath(file), folder, boiling, Desk(pantry, problems))
    whole = Problems()
    if not problems.errors():
        name = f"{file.parent.name}/{file.name}"
        read_batch(text, name, folder, found.book.brewhouses, Desk(pantry, whole))
    report((*problems, *(replace(problem, place=Place(path.name)) for problem in whole)), path.parent)
    if problems.errors() or whole.errors():
        raise Told
