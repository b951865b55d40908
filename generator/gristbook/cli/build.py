"""`gristbook build BOOK`: work out a book and write it as a site."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path

from gristbook.cli import FINE, PROBLEMS
from gristbook.cli.options import OF_ONE_BEER
from gristbook.cli.report import report
from gristbook.model.book import Book
from gristbook.problems import Problems


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook build`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help="the book's folder")
    parser.add_argument("--out", type=Path, default=Path("site"), metavar="DIR", help="where the site goes (site)")
    parser.add_argument("--strict", action="store_true", help="write nothing if the book has an error or a warning")


def run(options: argparse.Namespace) -> int:
    """Build a book: what is sound is written even where other texts have errors, unless it has to be strict."""
    from gristbook.site.owned import NotOurs, apart
    from gristbook.text.book import read_book

    problems = Problems()
    book = read_book(options.book, problems)
    if book is None:
        report(problems, options.book)
        print("nothing was written", file=sys.stderr)
        return PROBLEMS
    try:
        apart(options.out, options.book, book.texts)
        return _built(book, problems, options)
    except NotOurs as refusal:
        print(f"gristbook: {refusal}", file=sys.stderr)
        return PROBLEMS


def _built(read: Book, problems: Problems, options: argparse.Namespace) -> int:
    from gristbook.charts import FolderCache, MemoryCache, users_cache
    from gristbook.site.build import make_site
    from gristbook.targets.batches.brewed import brewed
    from gristbook.targets.plan import plan_book

    done = brewed(read, problems)
    plans, kept = plan_book(done.book, problems), users_cache()
    files = make_site(
        done.book,
        plans,
        problems,
        FolderCache(kept / "charts") if kept else MemoryCache(),
        folder=options.book,
        theme=options.book / "theme",
        batches=done.batches,
        lessons=done.lessons,
    )
    report(problems, options.book)
    if (options.strict and len(problems)) or _of_the_whole(done.book, problems):
        print("nothing was written", file=sys.stderr)
        return PROBLEMS
    sound = _write(done.book, files, problems, options.out, len(plans))
    return FINE if sound and not problems.errors() else PROBLEMS


def _of_the_whole(book: Book, problems: Problems) -> bool:
    """Whether the book or its theme has an error, which is every page's, and not only a text or a brewhouse."""
    return any(not it.place.path.endswith(OF_ONE_BEER) and it not in book.amiss for it in problems.errors())


def _write(book: Book, files: Mapping[str, bytes], problems: Problems, out: Path, beers: int) -> bool:
    """Write the site, with what stays of an earlier one, and say what became of it; whether nothing was in the way."""
    from gristbook.site.held import held, remade
    from gristbook.site.write import earlier, write

    made = remade(book, files, problems)
    stays = held(book, made, problems, earlier(out, made))
    written = write({**files, **stays.files}, out)
    print(
        f"{beers} recipes in {out / 'index.html'}: "
        f"{written.new} files new, {written.changed} changed, {written.same} as they were, {written.removed} removed"
    )
    if stays.files:
        print(f"{len(stays.files)} of them stay from an earlier build, marked so, until this is mended:")
        print("".join(f"  {text}\n" for text in stays.texts or ("book.yaml",)), end="")
    for path in written.left:
        print(f"gristbook: {out / path} does not hold what we wrote, so it stays as it is", file=sys.stderr)
    return not written.left
