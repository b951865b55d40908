"""`gristbook figures RECIPE`: print a recipe's figures, in any size, brewhouse, or from extract."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.options import describe_edition, find
from gristbook.cli.report import printed, report
from gristbook.problems import Problems


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook figures`."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    describe_edition(parser)
    parser.add_argument("--json", action="store_true", help="print them for another program")


def run(options: argparse.Namespace) -> int:
    """Print every named figure with its range and what moves it most."""
    from gristbook.site.amounts import amount, span
    from gristbook.site.feeds import figures_json
    from gristbook.targets.figures import NAMED

    problems = Problems()
    found, folder = find(options.recipe, options, problems)
    if found is None or problems.errors(options.recipe.name):
        report(problems, folder)
        return PROBLEMS
    plan = found.plan
    if options.json:
        sys.stdout.write(figures_json(plan).decode())
        return FINE
    print(f"{plan.recipe.title}, {printed(amount(plan.recipe.batch))} in {plan.brewhouse.name}")
    part = ""
    for row in NAMED:
        value = plan.named.get(row.name)
        if value is None:
            continue
        if row.part != part:
            part = row.part
            print(f"\n{part}")
        between = span(value)
        doubt = f"nine in ten between {printed(between)}, moved most by {value.mover}" if between else ""
        print(f"  {row.name:35} {printed(amount(value)):24} {doubt}".rstrip())
    for note in found.notes:
        print(f"\n{note}")
    return FINE
