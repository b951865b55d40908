"""`gristbook shop RECIPE ...`: what to buy for several recipes, times over."""

import argparse
from contextlib import suppress
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.options import describe_size, find
from gristbook.cli.report import printed

MOST = 1000
"""Brews of each beer that a list is made for; a typing slip asks for more."""

EXAMPLE = "gristbook shop recipes/quillmere-best.md recipes/lockside-mild.md --times 2"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook shop`."""
    parser.add_argument("recipes", type=Path, nargs="+", metavar="RECIPE", help="the recipes' files, in their books")
    describe_size(parser)
    parser.add_argument("--times", type=_times, default=1, metavar="N", help="how often each is brewed (1)")


def run(options: argparse.Namespace) -> None:
    """Print what to buy, summed by ingredient."""
    from gristbook.site.amounts import amount
    from gristbook.targets.buying.shopping import shopping, total_cost

    beers = []
    for path in options.recipes:
        with suppress(Told):  # of each that cannot be brewed, one is told why
            beers.append(find(path, options))
    if len(beers) < len(options.recipes):
        raise Told
    us_first, prices = all(beer.us_first for beer in beers), beers[0].book.prices
    if any(beer.book.prices != prices for beer in beers):
        prices = None  # a list from several books, each with prices of its own
    for beer in beers:
        print(f"{beer.words}{f', {options.times} times' if options.times > 1 else ''}")
    section = ""
    bought = shopping([beer.plan for beer in beers], options.times, prices)
    for purchase in bought:
        if purchase.section != section:
            section = purchase.section
            print(f"\n{section}")
        much = printed(amount(purchase.amount), us_first=us_first) if purchase.amount is not None else "to taste"
        packs = f", {printed(amount(purchase.packs))}" if purchase.packs is not None else ""
        cost = printed(amount(purchase.cost)) if purchase.cost is not None else ""
        what = f"{purchase.name}{packs}{f' ({purchase.note})' if purchase.note else ''}"
        print(f"  {much:26} {what:50} {cost:>8}".rstrip())
    total, missing = total_cost(bought)
    if prices is not None and total is not None:
        without = f", without {', '.join(missing)}, for which there is no price" if missing else ""
        print(f"\nIn all {printed(amount(total))} {prices.currency}{without}")


def _times(words: str) -> int:
    """How often, as a whole number; argparse says what is wrong with any other."""
    if words.isascii() and words.isdigit() and 1 <= int(words) <= MOST:
        return int(words)
    raise argparse.ArgumentTypeError(f"{words} is not a number of brews, from 1 to {MOST}")
