"""`gristbook check BOOK`: report every problem of a book and write nothing."""

import argparse
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.report import as_json, count, report
from gristbook.interface import Book

EXAMPLE = "gristbook check recipes --strict"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook check`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help="the book's folder")
    parser.add_argument("--strict", action="store_true", help="let a warning fail the check, too")
    parser.add_argument("--json", action="store_true", help="print the problems for another program")


def run(options: argparse.Namespace) -> None:
    """Check a book; the status says whether it has an error, or a warning where that counts."""
    book = Book(options.book)
    beers, problems = book.check(), book.problems
    if options.json:
        print(as_json(beers, problems, options.book))
    else:
        report(problems, options.book)
    if problems.errors() or (options.strict and len(problems)):
        raise Told
    if options.json:
        return
    print(f"{count(beers, 'recipe')}, {'no error' if len(problems) else 'nothing wrong'}")
    print(*book.assumed, sep="\n", end="\n" if book.assumed else "")
