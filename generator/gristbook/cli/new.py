"""`gristbook new TITLE`: begin a recipe, bare or as a copy of another."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from gristbook.cli import Told, WrongCall
from gristbook.cli.files import write_new
from gristbook.cli.options import book_of, find
from gristbook.cli.report import report
from gristbook.interface import Book, NoPlan
from gristbook.problems import Problems
from gristbook.sheet.ids import id_of
from gristbook.text.skeleton import skeleton
from gristbook.text.starter import renamed

EXAMPLE = 'gristbook new "Fog Signal" --from recipes/quillmere-best.md --book recipes'


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook new`."""
    parser.add_argument("title", metavar="TITLE", help="the beer's name, from which the file gets its own")
    parser.add_argument("--from", dest="source", type=Path, metavar="RECIPE", help="begin with a copy of this recipe")
    parser.add_argument("--book", type=Path, metavar="BOOK", help="the book's folder (the one that this folder is in)")


def run(options: argparse.Namespace) -> None:
    """Write the recipe's file, which stays only if the book reads it without an error; nothing is overwritten."""
    title = " ".join(options.title.split())
    if not (name := id_of(title)):
        print("gristbook: no file can be named from that title: use a letter from a to z, or a digit", file=sys.stderr)
        raise WrongCall
    folder = options.book or book_of(Path(f"{name}.md"))
    path = folder / f"{name}.md"
    if options.source is not None:
        problems = Problems()
        named = folder / f"{options.source}.md"  # a recipe of this book by its name alone
        source = named if not options.source.is_file() and named.is_file() else options.source
        if not source.is_file():
            find(folder / source.name, argparse.Namespace())  # which tells that it is not there, and what is
        text = renamed(source, title, problems)
        if text is None:
            report(problems, Path())
            raise Told
    else:
        book = Book(folder)
        text = skeleton(title, book.brewhouse, us=book.us_first)
    try:
        write_new(path, text)
    except FileExistsError:
        print(f"gristbook: {path} is there already: nothing was written", file=sys.stderr)
        raise Told from None
    _unless_it_is_wrong(path, folder)
    print(path)


def _unless_it_is_wrong(path: Path, folder: Path) -> None:
    """Take the file away again, and say why, where the book cannot read or brew it."""
    try:
        Book(folder).plan(path.name)
    except NoPlan as refusal:
        path.unlink()
        report(refusal.problems, folder)
        print(f"gristbook: {path} would not be read: nothing was written", file=sys.stderr)
        raise Told from refusal
    except BaseException:
        path.unlink()
        raise
