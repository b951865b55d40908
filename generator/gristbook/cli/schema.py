"""`gristbook schema`: a JSON Schema of a file of a book, for an editor to complete and check it by."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.report import report

EXAMPLE = "gristbook schema book --book recipes"

FILES = ("recipe", "book", "batch")


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook schema`."""
    parser.add_argument("file", choices=FILES, help="of which file: a recipe's or a batch's front matter, or book.yaml")
    words = "a book's folder, whose own pantry and brewhouses it names, too"
    parser.add_argument("--book", type=Path, metavar="BOOK", help=words)


def run(options: argparse.Namespace) -> None:
    """Print the schema; `Told` where the book that it is to be of cannot be read."""
    print(schema(options.file, options.book))


def schema(file: str, book: Path | None) -> str:
    """The schema of a kind of file, of a book or of any."""
    from gristbook.pantry.pantry import Pantry
    from gristbook.problems import Problems
    from gristbook.targets.advice.advice_rows import ROWS
    from gristbook.text.book import read_book
    from gristbook.text.schema import SCHEMAS, Known

    problems = Problems()
    read = read_book(book, problems) if book else None
    if book and read is None:
        report(problems, book)
        raise Told
    pantry = Pantry.load(book / "pantry" if book else None, Problems())
    houses = tuple(name for name, it in read.brewhouses.items() if not it.assumed) if read else ()
    advice = tuple(dict.fromkeys(row.key for row in ROWS))
    return json.dumps(SCHEMAS[file](Known(pantry, advice, houses)), ensure_ascii=False, indent=1)
