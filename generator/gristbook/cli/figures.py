"""`gristbook figures`: print a recipe's figures, or a table of a book's, in any size, brewhouse, or from extract."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.options import as_asked, book_of, describe_size, find, sized
from gristbook.cli.report import printed, printer, report
from gristbook.interface import Book, NoPlan, Plan

EXAMPLE = 'gristbook figures recipes/quillmere-best.md --batch "5 gal"'


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook figures`."""
    words = "the recipe's file, in its book; or a book's folder, for a table of all its beers (the book you are in)"
    parser.add_argument("recipe", type=Path, nargs="?", metavar="RECIPE", help=words)
    describe_size(parser)
    parser.add_argument("--json", action="store_true", help="print them for another program")


def run(options: argparse.Namespace) -> None:
    """Print what goes in and every named figure, with its range and what moves it most; of a book the first alone."""
    if options.recipe is None or (options.recipe / "book.yaml").is_file():
        _whole_book(options.recipe or book_of(Path("book.yaml")), options)
        return
    found = find(options.recipe, options)
    if options.json:
        from gristbook.site.book.feeds import figures_json

        sys.stdout.write(figures_json(found.plan).decode())
        return
    for line in (found.words, *_kept(found), *_goes_in(found), *_figures(found), *_take_care(found)):
        print(line)


def _whole_book(folder: Path, options: argparse.Namespace) -> None:
    """A line for each beer, in the order of the book; `Told` where one has an error, once the others are printed."""
    from gristbook.site.book.chapters import parts
    from gristbook.site.book.feeds import table_json

    book = Book(folder)
    plans, wrong = dict[str, Plan](), [*book.problems.errors()]
    for recipe in book.recipes:
        try:
            plans[recipe] = book.plan(recipe, **sized(options))
        except NoPlan as refusal:
            wrong += refusal.problems
    found = [plans[it] for one in [*plans.values()][:1] for part in parts(one.book, plans) for it in part.slugs]
    if options.json and (found or not wrong):
        sys.stdout.write(table_json([it.plan for it in found]).decode())
    elif found:
        print(*_table(found), sep="\n")
    if wrong:
        report(as_asked(dict.fromkeys(wrong)), folder)
        raise Told


WIDEST = 100
"""Letters that fit beside each other in a terminal; a longer title is cut."""


def _table(found: Sequence[Plan]) -> Iterator[str]:
    """The beers, each with its batch and its first figures in the book's own units; numbers stand under each other."""
    from gristbook.site.amounts import amount
    from gristbook.site.book.feeds import COLUMNS
    from gristbook.site.prose import plain

    rows = [("", "batch", *COLUMNS.values())]
    for it in found:
        shown = [amount(value) if value else None for value in (it.plan.recipe.batch, *map(it.plan.sheet.get, COLUMNS))]
        own = ((it.us_first and cell.us) or cell.metric if cell else "" for cell in shown)
        rows.append((plain(it.plan.recipe.title), *(cell.replace("\N{NO-BREAK SPACE}", " ") for cell in own)))
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    room = min(widths[0], WIDEST - sum(widths[1:]) - 2 * len(COLUMNS) - 2)
    for title, *cells in rows:
        cut = title if len(title) <= room else f"{title[: room - 1]}…"
        yield "  ".join((f"{cut:{room}}", *(f"{cell:>{width}}" for cell, width in zip(cells, widths[1:], strict=True))))


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
