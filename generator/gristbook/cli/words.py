"""`gristbook words`: everything that an author may write, with a sentence each, or the names of hops, malts, units …"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from gristbook.cli import Told
from gristbook.cli.report import report

if TYPE_CHECKING:
    from gristbook.reading.fields import Kind

EXAMPLE = "gristbook words hops"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook words`."""
    parser.add_argument(
        "topic",
        nargs="*",
        metavar="WHAT",
        help="list the names that may be written: of hops, malts, sugars, extracts, yeasts, styles, waters, salts, "
        "acids, finings and spices, units or figures",
    )
    parser.add_argument("--book", type=Path, metavar="BOOK", help="the names of this book's own pantry, too")


def run(options: argparse.Namespace) -> None:
    """Print the manual's tables, or the names of a topic."""
    from gristbook.text.manual import BATCH_LINES, FILES
    from gristbook.text.vocabulary import LINES

    if options.topic:
        _names(" ".join(options.topic), options.book)
        return
    for title, fields in FILES.items():
        print(f"{title}\n")
        for field in fields:
            usual = f"; {field.default} if nothing is said" if field.default else "; needed" if field.required else ""
            also = f" Also: {field.also}." if field.also else ""
            print(f"  {field.name + ':':20} {field.sentence} {_kind(field.kind)}{usual}.{also}")
        print()
    for section, properties in (*LINES.items(), *BATCH_LINES.items()):
        print(f"in a line of {section}\n")
        for part in properties:
            print(f"  {part.example:26} {part.sentence} In a mapping: {part.key}.")
        print()


def _names(topic: str, book: Path | None) -> None:
    """Print each name of a topic with what else it is called; `Told` where there is no such topic."""
    from gristbook.pantry.pantry import Pantry
    from gristbook.problems import Problems, nearest
    from gristbook.text.manual import TOPICS, names_of

    if topic not in TOPICS:
        near = nearest(topic, TOPICS)
        meant = f'; did you mean "{near}"?' if near else f"; expected one of {', '.join(TOPICS)}"
        print(f'gristbook: no list of "{topic}"{meant}', file=sys.stderr)
        raise Told
    problems = Problems()
    pantry = Pantry.load(book / "pantry" if book else None, problems)
    if book and len(problems):
        report(problems, book)
        raise Told
    for name, others in names_of(topic, pantry):
        print(f"{name:34} {others}".rstrip())


def _kind(kind: Kind) -> str:
    words = " or ".join(kind.choices) or kind.words
    return words[:1].upper() + words[1:]
