"""The command line: thin, one command a file, each loaded when it is called."""

import argparse
import gc
import importlib
import os
import sys
import traceback
from collections.abc import Sequence
from io import TextIOWrapper

from gristbook import __version__

FINE, PROBLEMS, USAGE, OUR_FAULT, INTERRUPTED, UNHEARD = 0, 1, 2, 3, 130, 141
"""What the exit status says: all well; the book has errors; the call was wrong; the fault is Gristbook's; somebody
stopped it; nobody was left to read what it printed."""

TRACEBACK = "GRISTBOOK_TRACEBACK"
"""Set in the environment, a fault of Gristbook's own is printed as Python tells it."""


class Told(Exception):
    """A command goes no further, or the book has errors, and whoever called it has been told why."""


COLLECTED_AFTER = 1_000_000
"""Records lead from what comes out to what went in and never in circles; a collector that looks for some every 700 of
them takes a sixth of a build's time and finds none."""

COMMANDS = {
    "adjust": "say what to do about wort that is not as planned",
    "brew": "begin a batch: keep the recipe and its plan as they stand, with blanks to fill in",
    "build": "work out a book and write it as a site",
    "check": "report every problem of a book and write nothing",
    "compare": "say which figures moved between two recipes or since a revision, and which changed lines did it",
    "explain": "print how one figure of a recipe is worked out, step by step",
    "figures": "print the figures of a recipe, in any size or brewhouse, or from malt extract",
    "shop": "print what to buy for several recipes, times over",
    "words": "print everything that may be written in a book",
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; what it prints goes to standard output, problems to standard error."""
    gc.set_threshold(COLLECTED_AFTER)
    words = list(sys.argv[1:] if arguments is None else arguments)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a file may be named in letters that the terminal has not
            stream.reconfigure(errors="backslashreplace")
    try:
        _run(words)
        sys.stdout.flush()
    except Told:
        return PROBLEMS
    except KeyboardInterrupt:
        print("gristbook: stopped", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:  # whoever was reading has read enough
        for stream in (sys.stdout, sys.stderr):
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        return UNHEARD
    except OSError as refusal:
        print(f"gristbook: {refusal.filename or 'the disk'}: {refusal.strerror or refusal}", file=sys.stderr)
        return PROBLEMS
    except Exception as fault:
        _own(fault)
        return OUR_FAULT
    return FINE


def _run(words: list[str]) -> None:
    parser = argparse.ArgumentParser(prog="gristbook", description="A cookbook of beer from plain-text recipes.")
    parser.add_argument("--version", action="version", version=f"gristbook {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, summary in COMMANDS.items():
        command = commands.add_parser(name, help=summary, description=summary.capitalize() + ".")
        if name in words or {"-h", "--help"} & set(words):  # another command's module is never loaded
            importlib.import_module(f"gristbook.cli.{name}").describe(command)
    options = parser.parse_args(words)
    importlib.import_module(f"gristbook.cli.{options.command}").run(options)


def _own(fault: Exception) -> None:
    """One line about a fault of ours, with the place in our code; all that Python knows of it where that is wanted."""
    if os.environ.get(TRACEBACK):
        traceback.print_exception(fault)
    at = traceback.extract_tb(fault.__traceback__)[-1]
    said = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
    where = f"{os.path.basename(at.filename)}:{at.lineno}"
    print(
        f"gristbook: a fault of Gristbook's own, not of the book ({said}, {where}); "
        f"please report it, with what it prints when {TRACEBACK}=1 is set",
        file=sys.stderr,
    )
