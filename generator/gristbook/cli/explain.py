"""`gristbook explain RECIPE FIGURE`: print how one figure of a recipe is worked out, down to the author's own lines."""

import argparse
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.options import describe_size, find
from gristbook.cli.report import printed, printer
from gristbook.interface import Plan

WIDTH = 100

EXAMPLE = 'gristbook explain recipes/quillmere-best.md "original gravity"'


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook explain`."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    parser.add_argument("figure", metavar="FIGURE", help='what `gristbook figures` calls it, or its id: "boil volume"')
    describe_size(parser)


def run(options: argparse.Namespace) -> None:
    """Print everything that the figure rests on, and last the figure with its range."""
    found = find(options.recipe, options)
    figure = _named(options.figure, found)
    for line in (found.words, *_steps(found, figure), *_sure(found, figure)):
        print(line)


def _named(asked: str, found: Plan) -> str:
    """The id of the figure that is asked for, by its id or in words; what was meant is said where there is none."""
    from gristbook.model.figures import figure_called, words_of
    from gristbook.problems import nearest

    called = figure_called(asked)
    figure = called.id if called else asked
    if figure in found:
        return figure
    near = nearest(asked, [*map(words_of, found), *found])
    meant = f'; did you mean "{near}"?' if near else ""
    why = "has none in this recipe" if called else "is no figure"
    print(f'gristbook: "{asked}" {why}{meant}', file=sys.stderr)
    raise Told


def _steps(found: Plan, figure: str) -> Iterator[str]:
    from gristbook.site.working.spelled import spelled

    for step in spelled(found[figure].value):
        yield f"\n{step.figure}"
        for detail in step.details:
            yield from textwrap.wrap(
                detail, WIDTH, initial_indent="    ", subsequent_indent="      ", break_on_hyphens=False
            )


def _sure(found: Plan, figure: str) -> Iterator[str]:
    """The figure as pages print it, how sure it is, and what moves it most."""
    from gristbook.site.amounts import span

    value, words = found[figure].value, found[figure].words
    yield f"\n{words}: {printer(found)(value)}"
    between = span(value)
    if between:
        ends = printed(between, us_first=found.us_first)
        yield f"nine in ten between {ends}, moved most by {value.mover}"
