"""`gristbook check BOOK`: report every problem of a book, or of one of its recipes, and write nothing."""

import argparse
from pathlib import Path

from gristbook.built import OF_ONE_BEER, Checked, checked_before, remember_check
from gristbook.cli import Told
from gristbook.cli.options import book_and_text
from gristbook.cli.report import as_json, count, report
from gristbook.interface import Book
from gristbook.problems import Problem, Severity
from gristbook.site.disk.sources import digest_of

BOOK = "the book's folder, or a recipe's file: of its book only what concerns it is told"

EXAMPLE = "gristbook check recipes --strict"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook check`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help=BOOK)
    parser.add_argument("--strict", action="store_true", help="let a warning fail the check, too")
    parser.add_argument("--json", action="store_true", help="print the problems for another program")


def run(options: argparse.Namespace) -> None:
    """Check a book; the status says whether it has an error, or a warning where that counts."""
    folder, own = book_and_text(options.book, options)
    found = checked_before(folder) or _checked(folder)
    problems = [it for it in found.problems if not own or _concerns(it, own)]
    if options.json:
        print(as_json(found.beers, problems, folder))
    else:
        report(problems, folder)
    if any(options.strict or it.severity is Severity.ERROR for it in problems):
        raise Told
    if options.json:
        return
    print(f"{own or count(found.beers, 'recipe')}, {'no error' if problems else 'nothing wrong'}")
    print(*found.assumed, sep="\n", end="\n" if found.assumed else "")


def _checked(folder: Path) -> Checked:
    digest, book = digest_of(folder), Book(folder)
    found = Checked(book.check(), book.assumed, tuple(book.problems))
    remember_check(found, folder, digest)
    return found


def _concerns(problem: Problem, own: str) -> bool:
    """Whether a problem is a text's own, one of its brews', or an error of what the whole book rests on."""
    of_the_whole = problem.severity is Severity.ERROR and not problem.text.endswith(OF_ONE_BEER)
    return problem.text == own or problem.text.startswith(own.removesuffix(".md") + "/") or of_the_whole
