"""The command line: thin, one command a file, each loaded when it is called."""

import argparse
import gc
import importlib
import os
import sys
import time
import traceback
from collections.abc import Collection, Sequence
from contextlib import suppress
from io import TextIOWrapper
from typing import TextIO

from gristbook import __version__
from gristbook.problems import nearest

FINE, PROBLEMS, USAGE, OUR_FAULT, INTERRUPTED, UNHEARD = 0, 1, 2, 3, 130, 141
"""What the exit status says: all well; the book has errors; the call was wrong; the fault is Gristbook's; somebody
stopped it; nobody was left to read what it printed."""

TRACEBACK = "GRISTBOOK_TRACEBACK"
"""Set in the environment, a fault of Gristbook's own is printed as Python tells it."""


class Told(Exception):
    """A command goes no further, or the book has errors, and whoever called it has been told why."""

    status = PROBLEMS


class WrongCall(Told):
    """What was asked for cannot be, whatever the book; whoever called has been told why."""

    status = USAGE


COLLECTED_AFTER = 1_000_000
"""Records lead from what comes out to what went in and never in circles; a collector that looks for some every 700 of
them takes a sixth of a build's time and finds none."""

COMMANDS = {
    "adjust": "say what to do about wort that is not as planned",
    "brew": "begin a batch: keep the recipe and its plan as they stand, with blanks to fill in",
    "build": "work out a book and write it as a site",
    "check": "report every problem of a book and write nothing",
    "compare": "say which figures moved between two recipes or since a revision, and which changed lines did it",
    "completion": "print what lets a shell complete commands and options",
    "explain": "print how one figure of a recipe is worked out, step by step",
    "figures": "print the figures of a recipe, in any size or brewhouse, or from malt extract, or a table of a book's",
    "manual": "write the author's manual, as a site",
    "new": "begin a recipe, bare or as a copy of another",
    "preview": "show a book in the browser, and follow each save",
    "schema": "print a JSON Schema of a file of a book, for an editor to complete and check it by",
    "shop": "print what to buy for several recipes, times over",
    "start": "begin a book, with a brewhouse and a recipe that fits it",
    "theme": "lay one of our templates into a book to change it, or say what each is given",
    "words": "print everything that may be written in a book",
}


MAKES = frozenset({"brew", "build", "manual", "new", "start"})
"""Commands that write something, and say how long that took."""

STATUSES = """\
exit status:
  0  all is well
  1  the book has problems, or a file cannot be read or written
  2  the call was wrong"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; what it prints goes to standard output, problems to standard error."""
    gc.set_threshold(COLLECTED_AFTER)
    words = list(sys.argv[1:] if arguments is None else arguments)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a file may be named in letters that the terminal has not
            stream.reconfigure(errors="backslashreplace")
    try:
        try:
            _run(words)
        finally:
            sys.stdout.flush()
    except Told as told:
        return told.status
    except KeyboardInterrupt:
        print("gristbook: stopped", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:  # whoever was reading has read enough
        _hush(sys.stdout, sys.stderr)
        return UNHEARD
    except OSError as refusal:
        _hush(sys.stdout)  # or Python tries once more to print what it could not
        print(f"gristbook: {refusal.filename or 'the disk'}: {refusal.strerror or refusal}", file=sys.stderr)
        return PROBLEMS
    except Exception as fault:
        own_fault(fault)
        return OUR_FAULT
    return FINE


def _hush(*streams: TextIO) -> None:
    """Let what a stream still holds go nowhere."""
    for stream in streams:
        with suppress(OSError, ValueError):  # it is no file at all
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _run(words: list[str]) -> None:
    if not words:
        print(_next())
        return
    begun = time.monotonic()
    if words[0] not in COMMANDS and (near := nearest(words[0], COMMANDS)):
        print(f'gristbook: there is no command "{words[0]}"; did you mean "{near}"?', file=sys.stderr)
        raise WrongCall
    options = parser(words).parse_args(words)
    importlib.import_module(f"gristbook.cli.{options.command}").run(options)
    if options.command in MAKES:
        print(f"Done in {time.monotonic() - begun:.1f} s")


def parser(words: Collection[str] = COMMANDS) -> argparse.ArgumentParser:
    """What reads the command line; of the commands, those that ``words`` name know their options."""
    whole = argparse.ArgumentParser(
        prog="gristbook",
        description="A cookbook of beer from plain-text recipes.",
        epilog=f"example:\n  gristbook start my-beers\n\n{STATUSES}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    whole.add_argument("--version", action="version", version=f"gristbook {__version__}")
    commands = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, summary in COMMANDS.items():
        command = commands.add_parser(
            name,
            help=summary,
            description=f"{summary[:1].upper()}{summary[1:]}.",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        if name in words or {"-h", "--help"} & set(words):  # another command's module is never loaded
            module = importlib.import_module(f"gristbook.cli.{name}")
            module.describe(command)
            command.epilog = f"example:\n  {module.EXAMPLE}\n\n{STATUSES}"
    return whole


def _next() -> str:
    """What makes sense where one stands: in a book, what works on it; anywhere else, to begin one."""
    if os.path.isfile("book.yaml"):
        steps = {
            "gristbook check .": "what is wrong in this book, and what was probably meant",
            "gristbook preview .": "the book in a browser, following what you save",
            "gristbook build .": "the site, in site/index.html",
            'gristbook new "The Name of a Beer"': "begin a recipe",
            "gristbook figures": "a table of all beers; with RECIPE.md every figure of one",
            "gristbook brew RECIPE.md": "begin a batch",
        }
    else:
        steps = {
            "gristbook start my-beers": "begin a book in a folder of that name",
            "gristbook check BOOK": "what is wrong in a book that you have",
            "gristbook build BOOK": "its site, in site/index.html",
        }
    steps["gristbook manual my-manual"] = "the manual, as a site"
    steps["gristbook --help"] = "all commands"
    width = max(map(len, steps))
    return "\n".join(f"{call:{width}}  {what}" for call, what in steps.items())


def own_fault(fault: Exception) -> None:
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
