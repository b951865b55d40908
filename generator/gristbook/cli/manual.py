"""`gristbook manual DIR`: the author's manual, which is a book of Gristbook's, built as any other."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterator
from pathlib import Path

from gristbook.cli import build, parser
from gristbook.cli.files import write_new

EXAMPLE = "gristbook manual my-manual"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook manual`."""
    parser.add_argument("folder", type=Path, metavar="DIR", help="the folder that the manual's pages go into")


def run(options: argparse.Namespace) -> None:
    """Lay the manual's book in a folder of its own, build it, and say where to begin."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in whole().items():
            (Path(folder) / name).parent.mkdir(parents=True, exist_ok=True)
            write_new(Path(folder) / name, text)
        build.run(argparse.Namespace(book=Path(folder), out=options.folder, strict=True, fresh=False, pdf=False))
    print(f"The manual is {options.folder / 'learning' / 'index.html'}")


def whole() -> dict[str, str]:
    """The manual's texts by their paths in its book, with what only the command line knows."""
    from gristbook.text.manual_tables import LISTS, manual

    return manual({**LISTS, "command": _command, "advice": _advice})


def _command(of: str) -> Iterator[str]:
    """How a command is called, what it does, and everything that may be said after it."""
    commands = next(it for it in parser([of])._actions if isinstance(it, argparse._SubParsersAction))
    told: argparse.ArgumentParser = commands.choices[of]
    said = [it for it in told._actions if it.dest != "help"]
    called = " ".join(["gristbook", of, *(str(it.metavar or it.dest) for it in said if not it.option_strings)])
    yield f"`{called}`: {told.description}\n"
    for it in said:
        value = it.metavar or (" or ".join(it.choices) if it.choices else "") if it.nargs != 0 else ""
        yield f"- `{' '.join(filter(None, [*it.option_strings, str(value)]))}`: {(it.help or '').replace('%%', '%')}"


def _advice(of: str) -> Iterator[str]:
    """What a recipe may mean to go against, by its name under `meant:`, with the reason; ``all`` of it."""
    from gristbook.targets.advice.advice_rows import ROWS

    for key, row in {row.key: row for row in ROWS}.items():
        yield f"- **{key}**: {row.reason}"
