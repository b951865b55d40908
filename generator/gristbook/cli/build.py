"""`gristbook build BOOK`: work out a book and write it as a site."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.report import report
from gristbook.problems import Problems

KEPT = ".gristbook"
"""The folder in a book that holds caches, and nothing that would be missed."""


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook build`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help="the book's folder")
    parser.add_argument("--out", type=Path, default=Path("site"), metavar="DIR", help="where the site goes (site)")
    parser.add_argument("--strict", action="store_true", help="write nothing if the book has an error or a warning")


def run(options: argparse.Namespace) -> int:
    """Build a book: its good recipes are written even where others have errors, unless it has to be strict."""
    from gristbook.charts import FolderCache
    from gristbook.site.build import make_site
    from gristbook.site.owned import NotOurs
    from gristbook.site.write import write
    from gristbook.targets.batches.brewed import brewed
    from gristbook.targets.plan import plan_book
    from gristbook.text.book import read_book

    problems = Problems()
    book = read_book(options.book, problems)
    if book is None:
        report(problems, options.book)
        return PROBLEMS
    done = brewed(book, problems)
    book = done.book
    plans = plan_book(book, problems)
    kept = keep(options.book)
    cache, theme = FolderCache(kept / "charts"), options.book / "theme"
    files = make_site(
        book,
        plans,
        problems,
        cache,
        folder=options.book,
        theme=theme,
        batches=done.batches,
        lessons=done.lessons,
    )
    report(problems, options.book)
    if options.strict and len(problems):
        print("nothing was written", file=sys.stderr)
        return PROBLEMS
    try:
        written = write(files, options.out)
    except NotOurs as refusal:
        print(f"gristbook: {refusal}", file=sys.stderr)
        return PROBLEMS
    print(
        f"{len(plans)} recipes in {options.out / 'index.html'}: "
        f"{written.new} files new, {written.changed} changed, {written.same} as they were, {written.removed} removed"
    )
    return PROBLEMS if problems.errors() else FINE


def keep(book: Path) -> Path:
    """The book's folder for caches, which keeps itself out of git."""
    folder = book / KEPT
    folder.mkdir(exist_ok=True)
    ignore = folder / ".gitignore"
    if not ignore.exists():
        ignore.write_text("*\n", encoding="utf-8")
    return folder
