"""`gristbook build BOOK`: work out a book and write it as a site."""

import argparse
import sys
from contextlib import nullcontext
from pathlib import Path

from gristbook.built import Site, built_before
from gristbook.charts.caches import fresh
from gristbook.cli import Told
from gristbook.cli.options import book_and_text
from gristbook.cli.progress import progress
from gristbook.cli.report import count, report
from gristbook.interface import Book
from gristbook.problems import Problem, Severity

EXAMPLE = "gristbook build recipes --out site"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook build`."""
    parser.add_argument("book", type=Path, metavar="BOOK", help="the book's folder, or a file in it")
    parser.add_argument("--out", type=Path, default=Path("site"), metavar="DIR", help="where the site goes (site)")
    parser.add_argument("--strict", action="store_true", help="write nothing if the book has an error or a warning")
    parser.add_argument("--fresh", action="store_true", help="take nothing from what earlier builds have kept")
    parser.add_argument("--pdf", action="store_true", help="write the whole book as DIR/book.pdf, too, for paper (A5)")


def run(options: argparse.Namespace) -> None:
    """Build a book: what is sound is written even where other texts have errors, unless it has to be strict."""
    out, how = options.out, {"strict": options.strict, "pdf": options.pdf}
    folder, _ = book_and_text(options.book, options)
    with fresh() if options.fresh else nullcontext():
        site, problems = built_before(folder, out, **how) or _built(folder, out, **how)
    report(problems, folder)
    if site is None:
        print("nothing was written", file=sys.stderr)
        raise Told
    print(
        f"{count(site.beers, 'recipe')} in {out / 'index.html'}: "
        f"{site.new} files new, {site.changed} changed, {site.same} as they were, {site.removed} removed"
    )
    if site.stays:
        print(f"{site.stays} of them stay from an earlier build, marked so, until this is mended:")
        print("".join(f"  {text}\n" for text in site.texts or ("book.yaml",)), end="")
    for path in site.left:
        print(f"gristbook: {out / path} does not hold what we wrote, so it stays as it is", file=sys.stderr)
    if site.left or any(it.severity is Severity.ERROR for it in problems):
        raise Told


def _built(folder: Path, out: Path, *, strict: bool, pdf: bool) -> tuple[Site | None, tuple[Problem, ...]]:
    from gristbook.site.book.paper import NoPdf
    from gristbook.site.disk.owned import NotOurs

    book = Book(folder)
    try:
        with progress() as told:
            site = book.build(out, strict=strict, pdf=pdf, on_made=told)
    except (NotOurs, NoPdf) as refusal:
        print(f"gristbook: {refusal}", file=sys.stderr)
        raise Told from refusal
    return site, tuple(book.problems)
