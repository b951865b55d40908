"""`gristbook check BOOK`: report every problem of a book and write nothing."""

from __future__ import annotations

import argparse
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.report import report
from gristbook.problems import Problems


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook check`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help="the book's folder")
    parser.add_argument("--strict", action="store_true", help="let a warning fail the check, too")


def run(options: argparse.Namespace) -> int:
    """Check a book; the status says whether it has an error, or a warning where that counts."""
    from gristbook.site.files import Files
    from gristbook.site.outline import outline
    from gristbook.targets.batches.brewed import brewed
    from gristbook.targets.plan import plan_book
    from gristbook.text.book import read_book

    problems = Problems()
    book, good = read_book(options.book, problems), 0
    if book is not None:
        done, folder = brewed(book, problems), options.book
        plans, batches = plan_book(done.book, problems), [it.batch for it in done.batches]
        outline(done.book, plans, batches, Files(problems), problems, folder=folder, theme=folder / "theme")
        good = len(plans)
    report(problems, options.book)
    if problems.errors() or (options.strict and len(problems)):
        return PROBLEMS
    print(f"{good} recipes, nothing wrong" if not len(problems) else f"{good} recipes, no error")
    return FINE
