"""How problems are shown: all of them, with paths as the caller typed the book's folder, then how many there were."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterable
from dataclasses import replace
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from gristbook.problems import Problem, Severity

if TYPE_CHECKING:  # a check prints no amount, and loads no page's room for it
    from gristbook.interface import Plan
    from gristbook.sheet.value import Value
    from gristbook.site.amounts import Amount

MOST_OF_A_FILE = 50
"""Problems of a file that are shown, its errors before its warnings; of the rest, how many there are."""

COLOURS = {Severity.ERROR: "1;31", Severity.WARNING: "33"}
"""Red and bold, or yellow, as a terminal is told."""

COMMAND_LINE = "the command line"
"""Where a problem stands that is in no file."""


def report(problems: Iterable[Problem], folder: Path) -> None:
    """Print every problem to standard error, one a line, so that an editor can jump to it."""
    found = list(problems)
    for path, of_file in groupby(found, key=lambda problem: problem.place.path):
        every = list(of_file)
        shown = set(sorted(every, key=lambda problem: problem.severity is not Severity.ERROR)[:MOST_OF_A_FILE])
        for problem in every:
            if problem in shown:
                told = str(_from_here(problem, folder)).replace(f"{COMMAND_LINE}:1:1", COMMAND_LINE)
                print(_coloured(told, problem.severity), file=sys.stderr)
        if rest := len(every) - len(shown):
            print(f"{_path(path, folder)}: {rest} more like these", file=sys.stderr)
    errors = sum(problem.severity is Severity.ERROR for problem in found)
    if found:
        print(f"{count(errors, 'error')}, {count(len(found) - errors, 'warning')}", file=sys.stderr)


def as_json(recipes: int, problems: Iterable[Problem], folder: Path) -> str:
    """How many recipes can be brewed and every problem, for another program: what `report` says, in parts."""
    told = [
        {
            "path": _path(it.place.path, folder),
            "line": it.place.line,
            "column": it.place.column,
            "severity": it.severity.value,
            "words": it.what,
            "within": it.within,
            "expected": it.expected,
            "suggestion": it.suggestion,
            "more": it.more,
        }
        for it in problems
    ]
    return json.dumps({"recipes": recipes, "problems": told}, indent=2)


def _coloured(told: str, severity: Severity) -> str:
    """A problem with its severity in colour, on a terminal whose owner does not say NO_COLOR."""
    if not sys.stderr.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return told
    word = f": {severity.value}: "
    return told.replace(word, f": \x1b[{COLOURS[severity]}m{severity.value}\x1b[0m: ", 1)


def printed(shown: Amount, *, us_first: bool = False) -> str:
    """An amount in a terminal: both systems of units where they differ."""
    first, then = (shown.us, shown.metric) if us_first else (shown.metric, shown.us)
    words = f"{first} ({then})" if shown.us else shown.metric
    return words.replace("\N{NO-BREAK SPACE}", " ")


def printer(plan: Plan) -> Callable[[Value], str]:
    """What says a figure of a plan in a terminal, in both systems of units where they differ."""
    from gristbook.site.amounts import amount

    return lambda value: printed(amount(value), us_first=plan.us_first)


def _from_here(problem: Problem, folder: Path) -> Problem:
    if problem.place.path == COMMAND_LINE:
        return problem
    return replace(problem, place=replace(problem.place, path=_path(problem.place.path, folder)))


def _path(path: str, folder: Path) -> str:
    return (folder / path).as_posix()


def count(number: int, what: str) -> str:
    """So many of a thing, in words: `no errors`, `1 recipe`."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
