"""`gristbook figures RECIPE`: print a recipe's figures, in any size, brewhouse, or from extract."""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

from gristbook.cli.options import describe_size, find
from gristbook.cli.report import printed, printer
from gristbook.interface import Plan

EXAMPLE = 'gristbook figures recipes/quillmere-best.md --batch "5 gal"'


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook figures`."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    describe_size(parser)
    parser.add_argument("--json", action="store_true", help="print them for another program")


def run(options: argparse.Namespace) -> None:
    """Print what goes in and every named figure, with its range and what moves it most."""
    found = find(options.recipe, options)
    if options.json:
        from gristbook.site.book.feeds import figures_json

        sys.stdout.write(figures_json(found.plan).decode())
        return
    for line in (found.words, *_kept(found), *_goes_in(found), *_figures(found), *_take_care(found)):
        print(line)


def _kept(found: Plan) -> Iterator[str]:
    """What an edition cannot keep, in words and in numbers."""
    from gristbook.model.figures import words_of

    if found.made is None:
        return
    yield from found.made.notes
    for drift in found.made.drifts:
        home, exact, now = map(printer(found), (drift.home, drift.exact, drift.rounded))
        if drift.said:
            words = words_of(drift.figure)
            yield f"{words}: {home} as written, {exact} worked out exactly, {now} from the rounded amounts"


def _take_care(found: Plan) -> Iterator[str]:
    """What speaks against its gas."""
    from gristbook.targets.advice.against import told
    from gristbook.targets.advice.gas_routes import routes_to_gas

    against = [told(it.words, us=found.us_first) for it in routes_to_gas(found.plan)]
    yield from ("\nTake care", *(f"  {words}" for words in against)) if against else ()


def _goes_in(found: Plan) -> Iterator[str]:
    from gristbook.site.beer.ingredients import sugar_time
    from gristbook.site.figures import in_metric
    from gristbook.site.words import hop_words
    from gristbook.targets.buying.cost import beside

    figures, show = found.plan.figures, printer(found)
    yield "\nWhat goes in"
    rows = [(line.mass, line.malt.name) for line in figures.grist.malts]
    rows += [(line.mass, f"{line.sugar.name}, {in_metric(sugar_time(line.sugar))}") for line in figures.grist.sugars]
    rows += [(line.mass, f"{line.hop.name}, {hop_words(line.hop)}") for line in figures.bitterness.hops]
    rows += [(line.amount, line.yeast.name) for line in (figures.pitch.yeasts if figures.pitch else ())]
    more = [(need.amount, need.name) for need in beside(found.plan.recipe, figures)]
    for mass, what in (*rows, *more):
        yield f"  {show(mass) if mass else 'to taste':26} {what}".replace("\N{NO-BREAK SPACE}", " ")


def _figures(found: Plan) -> Iterator[str]:
    from gristbook.model.figures import FIGURES
    from gristbook.site.amounts import span
    from gristbook.site.beer.tables import is_told

    part, show = "", printer(found)
    for row in FIGURES:
        value = found.plan.sheet.get(row.id)
        if value is None or not is_told(row.id, found.plan):
            continue
        if row.part != part:
            part = row.part
            yield f"\n{part}"
        between = span(value)
        ends = printed(between, us_first=found.us_first) if between else ""
        doubt = f"nine in ten between {ends}, moved most by {value.mover}" if between else ""
        yield f"  {row.words:38} {show(value):24} {doubt}".rstrip()
