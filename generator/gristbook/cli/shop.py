"""`gristbook shop RECIPE ...`: what to buy for several recipes, times over."""

from __future__ import annotations

import argparse
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.options import describe_edition, find
from gristbook.cli.report import printed, report
from gristbook.problems import Problems


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook shop`."""
    parser.add_argument("recipes", type=Path, nargs="+", metavar="RECIPE", help="the recipes' files, in their books")
    describe_edition(parser)
    parser.add_argument("--times", type=int, default=1, metavar="N", help="how often each is brewed (1)")


def run(options: argparse.Namespace) -> int:
    """Print what to buy, summed by ingredient."""
    from gristbook.site.amounts import amount
    from gristbook.targets.shopping import shopping

    plans = []
    for path in options.recipes:
        problems = Problems()
        found, folder = find(path, options, problems)
        if found is None:
            report(problems, folder)
            return PROBLEMS
        plans.append(found.plan)
    section = ""
    for purchase in shopping(plans, max(options.times, 1)):
        if purchase.section != section:
            print(f"{chr(10) if section else ''}{purchase.section}")
            section = purchase.section
        packs = f", {printed(amount(purchase.packs))}" if purchase.packs is not None else ""
        print(f"  {printed(amount(purchase.amount)):26} {purchase.name}{packs}")
    return FINE
