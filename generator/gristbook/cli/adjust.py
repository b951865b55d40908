"""`gristbook adjust RECIPE`: what to do on the brew day about wort that is not as planned."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from gristbook.cli import Told
from gristbook.cli.options import describe_brew, find
from gristbook.cli.report import COMMAND_LINE, printer, report
from gristbook.interface import Plan
from gristbook.problems import Place, Problems
from gristbook.reading.quantity import Unreadable
from gristbook.sheet.value import Value
from gristbook.site.beer.cases import AS, adjusted, doing

if TYPE_CHECKING:
    from gristbook.targets.batches.results import Adjustment, Remedy

EXAMPLE = 'gristbook adjust recipes/quillmere-best.md --measured "22 L at 1.034"'


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook adjust`."""
    parser.add_argument(
        "--measured",
        required=True,
        metavar="WORT",
        help=f"as {AS}; without more words it is cool, in the kettle, at the end of the boil; of a brew that is topped "
        "up, in the fermenter where that is nearer",
    )
    describe_brew(parser)


def run(options: argparse.Namespace) -> None:
    """Print what each remedy takes, and what it makes of gravity, volume and bitterness."""
    from gristbook.targets.batches.frozen import frozen_plan

    found, problems = find(options.recipe, options), Problems()
    try:
        made = adjusted(frozen_plan(found.plan), options.measured, Place(COMMAND_LINE), problems)
    except Unreadable:
        report(problems, options.recipe.parent)
        raise Told from None
    for line in _told(found, made):
        print(line)


def _told(found: Plan, made: Adjustment) -> Iterator[str]:
    show = printer(found)
    end = "in the fermenter" if made.vessel == "fermenter" else "at the end of the boil"
    topped = made.vessel == "fermenter" and made.step != "in the fermenter"
    yield found.words
    where = "at the end of the boil" if made.step == "end of the boil" else made.step
    yield f"Measured {where}: {show(made.volume)} at {show(made.gravity)}, cool"
    bitter = f", {show(made.bitterness)}" if made.bitterness is not None else ""
    yield f"Wanted {end}: {show(made.wanted_volume)} at {show(made.wanted)}{bitter}"
    if made.fits:
        as_good = "Topped up to the batch it" if topped else "This"
        yield f"\n{as_good} is as good as planned: nothing{' else' if topped else ''} need be done."
        return
    yield "\nTopped up to the batch" if topped else "\nLeft as it is"
    yield from _outcome(made.unmended, end, show)
    for remedy in made.remedies:
        yield f"\n{_doing(remedy, show)}"
        yield from _outcome(remedy, end, show)
    yield ""
    yield from made.words


def _doing(remedy: Remedy, show: Callable[[Value], str]) -> str:
    words = "".join(show(part) if isinstance(part, Value) else str(part) for part in doing(remedy))
    return words[:1].upper() + words[1:]


def _outcome(remedy: Remedy, where: str, show: Callable[[Value], str]) -> Iterator[str]:
    yield f"  {f'gravity {where}':34} {show(remedy.gravity)}"
    yield f"  {f'wort {where}':34} {show(remedy.volume)}"
    if remedy.bitterness is not None:
        yield f"  {'bitterness':34} {show(remedy.bitterness)}"
