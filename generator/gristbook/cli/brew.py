"""`gristbook brew RECIPE`: begin a batch, with the recipe and its plan as they stand and blanks to fill in."""

from __future__ import annotations

import argparse
from datetime import date
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from gristbook.cli.files import write_new
from gristbook.cli.options import book_of, describe_brew, find
from gristbook.interface import Plan
from gristbook.problems import Problems

if TYPE_CHECKING:
    from gristbook.text.begun import Begun

EXAMPLE = "gristbook brew recipes/quillmere-best.md --on 2026-03-14"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook brew`."""
    describe_brew(parser)
    parser.add_argument(
        "--from",
        dest="notes",
        type=Path,
        metavar="NOTES",
        help="a text of notes, as the page for the day makes it: what it says is filled in, what is missing is named",
    )
    parser.add_argument(
        "--on", type=_day, metavar="DATE", help="the day of the brew, as 2026-03-14 (that of the notes, or today)"
    )


def run(options: argparse.Namespace) -> None:
    """Write the batch's file beside the recipe, and say where it is and what to write down; nothing is overwritten.

    Here alone Gristbook asks the calendar, and only where nobody says the day.
    """
    from gristbook.cli.noted import MEASURED_NAMES, TOLD, check, filled_in, notes_in
    from gristbook.reading.files import inside
    from gristbook.site.beer.blanks import afterwards, blanks

    problems = Problems()
    notes = notes_in(options.notes, problems) if options.notes else None
    if notes is not None:
        options.edition = options.edition or notes.edition
    found, folder = find(options.recipe, options), book_of(options.recipe)
    said = notes.filled if notes is not None else {}
    brewed = str(said.get("brewed", ""))
    day = options.on or (date.fromisoformat(brewed) if brewed else date.today())
    begun = _begun(found, day)
    asked, later = blanks(found.plan, us=begun.us), afterwards(found.plan, us=begun.us)
    measured, told = filled_in(asked, said, MEASURED_NAMES), filled_in(later, said, TOLD)
    beside = inside(folder, found.plan.recipe.place.path.removesuffix(".md"))
    text = begun.file(measured, told, notes.words if notes is not None else "")
    if notes is not None:
        check(notes, options.notes, problems, found, beside / f"{day.isoformat()}.md", text)
    path = _written(beside, day, text)
    missing = [blank for blank in (*asked, *later) if blank.field not in said]
    heading = "Write down as you go" if notes is None else "Not in the notes" if missing else "Nothing is missing"
    print(f"{path}\n\n{found.words}. {heading}{':' if missing else '.'}\n")
    for blank in missing:
        print(f"  {blank.field:20} {blank.words}".rstrip())


def _begun(found: Plan, day: date) -> Begun:
    from gristbook.targets.batches.frozen import frozen_plan
    from gristbook.targets.beer.fermentation import hungriest
    from gristbook.text.begun import Begun
    from gristbook.text.writing import speaks_us

    plan = found.plan
    return Begun(
        brewed=day.isoformat(),
        brewhouse=plan.brewhouse.name,
        edition=found.made.edition.name if found.made else "",
        yeast=hungriest(plan.recipe.fermenting).name,
        recipe=plan.recipe,
        plan=frozen_plan(plan),
        us=found.us_first or speaks_us(plan.recipe),
    )


def _written(folder: Path, day: date, text: str) -> Path:
    """Where the file went: a second brew of the same day gets a number."""
    folder.mkdir(exist_ok=True)
    for number in count(1):
        path = folder / f"{day.isoformat()}{f'-{number}' if number > 1 else ''}.md"
        try:
            write_new(path, text)
        except FileExistsError:
            continue
        return path
    raise AssertionError("there are numbers enough")


def _day(words: str) -> date:
    """A day; argparse says what is wrong with any other."""
    try:
        day = date.fromisoformat(words)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{words} is no day, as 2026-03-14") from None
    if day.isoformat() != words:
        raise argparse.ArgumentTypeError(f"{words} is not written as 2026-03-14")
    return day
