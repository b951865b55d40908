"""The command line: thin, one command a file, each loaded when it is called."""

from __future__ import annotations

import argparse
import importlib
import os
import sys
import traceback
from collections.abc import Sequence

from gristbook import __version__

FINE, PROBLEMS, USAGE, OUR_FAULT = 0, 1, 2, 3
"""What the exit status says: all well; the book has errors; the call was wrong; the fault is Gristbook's."""

COMMANDS = {
    "adjust": "say what to do about wort that is not as planned",
    "brew": "begin a batch: keep the recipe and its plan as they stand, with blanks to fill in",
    "build": "work out a book and write it as a site",
    "check": "report every problem of a book and write nothing",
    "figures": "print the figures of a recipe, in any size or brewhouse, or from malt extract",
    "shop": "print what to buy for several recipes, times over",
    "words": "print everything that may be written in a book",
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; what it prints goes to standard output, problems to standard error."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    parser = argparse.ArgumentParser(prog="gristbook", description="A cookbook of beer from plain-text recipes.")
    parser.add_argument("--version", action="version", version=f"gristbook {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, summary in COMMANDS.items():
        command = commands.add_parser(name, help=summary, description=summary.capitalize() + ".")
        if name in words or {"-h", "--help"} & set(words):  # another command's module is never loaded
            importlib.import_module(f"gristbook.cli.{name}").describe(command)
    options = parser.parse_args(words)
    try:
        return int(importlib.import_module(f"gristbook.cli.{options.command}").run(options))
    except BrokenPipeError:  # whoever was reading has read enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except OSError as refusal:
        print(
            f"gristbook: {refusal.filename or getattr(options, 'book', 'the disk')}: {refusal.strerror or refusal}",
            file=sys.stderr,
        )
        return PROBLEMS
    except Exception:
        traceback.print_exc()
        print("gristbook: this is a fault of Gristbook's own, not of the book", file=sys.stderr)
        return OUR_FAULT
