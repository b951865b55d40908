"""`gristbook figures RECIPE`: print a recipe's figures, in any size, brewhouse, or from extract."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.options import Found, describe_edition, find
from gristbook.cli.report import printed


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook figures`."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    describe_edition(parser)
    parser.add_argument("--json", action="store_true", help="print them for another program")


def run(options: argparse.Namespace) -> int:
    """Print what goes in and every named figure, with its range and what moves it most."""
    from gristbook.site.feeds import figures_json

    found = find(options.recipe, options)
    if found is None:
        return PROBLEMS
    if options.json:
        sys.stdout.write(figures_json(found.plan).decode())
        return FINE
    for line in (found.words, *_kept(found), *_goes_in(found), *_figures(found), *_take_care(found)):
        print(line)
    return FINE


def _kept(found: Found) -> Iterator[str]:
    """What an edition cannot keep, in words and in numbers."""
    if found.made is None:
        return
    yield from found.made.notes
    for drift in found.made.drifts:
        home, exact, now = map(found.printed, (drift.home, drift.exact, drift.rounded))
        if drift.said:
            yield f"{drift.name}: {home} as written, {exact} worked out exactly, {now} from the rounded amounts"


def _take_care(found: Found) -> Iterator[str]:
    """What speaks against its gas."""
    from gristbook.targets.against import told
    from gristbook.targets.gas_routes import routes_to_gas

    against = [told(it.words) for it in routes_to_gas(found.plan)]
    yield from ("\nTake care", *(f"  {words}" for words in against)) if against else ()


def _goes_in(found: Found) -> Iterator[str]:
    from gristbook.site.figures import in_metric
    from gristbook.site.ingredients import sugar_time
    from gristbook.site.words import hop_words

    figures = found.plan.figures
    yield "\nWhat goes in"
    rows = [(line.mass, line.malt.name) for line in figures.grist.malts]
    rows += [(line.mass, f"{line.sugar.name}, {in_metric(sugar_time(line.sugar))}") for line in figures.grist.sugars]
    rows += [(line.mass, f"{line.hop.name}, {hop_words(line.hop)}") for line in figures.bitterness.hops]
    rows += [(line.amount, line.yeast.name) for line in (figures.pitch.yeasts if figures.pitch else ())]
    for mass, what in rows:
        yield f"  {found.printed(mass):26} {what}".replace("\N{NO-BREAK SPACE}", " ")


def _figures(found: Found) -> Iterator[str]:
    from gristbook.site.amounts import span
    from gristbook.targets.figures import NAMED

    part, named = "", found.plan.named
    for row in NAMED:
        value = named.get(row.name)
        if value is None:
            continue
        if row.part != part:
            part = row.part
            yield f"\n{part}"
        between = span(value)
        ends = printed(between, us_first=found.us_first) if between else ""
        doubt = f"nine in ten between {ends}, moved most by {value.mover}" if between else ""
        yield f"  {row.name:38} {found.printed(value):24} {doubt}".rstrip()
