"""`gristbook words`: print everything that an author may write, each with its kind, its default and a sentence."""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gristbook.reading.fields import Kind


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook words`."""
    parser.add_argument(
        "--schema", choices=("recipe", "batch", "book"), help="print a JSON Schema of that file instead"
    )


def run(options: argparse.Namespace) -> None:
    """Print the manual's tables, or a schema for an editor to check a file by."""
    from gristbook.text.manual import BATCH_LINES, FILES, batch_schema, book_schema, recipe_schema
    from gristbook.text.vocabulary import LINES

    if options.schema:
        schema = {"recipe": recipe_schema, "batch": batch_schema, "book": book_schema}[options.schema]()
        print(json.dumps(schema, ensure_ascii=False, indent=2))
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


def _kind(kind: Kind) -> str:
    words = " or ".join(kind.choices) or kind.words
    return words[:1].upper() + words[1:]
