"""What a comparison found, as plain text, as Markdown for the summary of a change, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.cli.comparing.causes import Cause, Compared
from gristbook.cli.comparing.lines import Line
from gristbook.cli.comparing.moves import Move
from gristbook.reading.names import shown
from gristbook.site.amounts import bare

MAIN = ("original-gravity", "final-gravity", "alcohol-by-volume", "bitterness", "colour")
"""The figures that a brewer looks at first."""

FEW = 4
"""Figures that a change is told to move, where it moves none of those."""

MARKS = str.maketrans({mark: f"\\{mark}" for mark in "\\`*_|<>[]#@~"})
HEAD = ("", "then", "now", "moved", "nine brews in ten then")


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, rows of a table of figures, points of a few lines each, and what else is to be said."""

    title: str
    rows: tuple[tuple[str, ...], ...] = ()
    points: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()


def section(found: Compared, since: str) -> Section:
    """A recipe's comparison ``since`` then, with all its figures; without it, with those that a list has room for.

    What changed around a recipe, and moves nothing of it, is left out.
    """
    acting = {at for it in found.together for at in it.causes}
    kept = [at for at, it in enumerate(found.causes) if it.moves or at in acting or it.lines[0].file == found.was]
    points = tuple((*_said(found.causes[at].lines), _does(found.causes[at], found)) for at in kept)
    told = [it for it in found.moves.values() if since or it.figure in MAIN or it.beyond or not (it.then and it.now)]
    title, notes = f"{shown(found.now.words)}{since and f', beside {since}'}", []
    if not found.moves:
        title += ": no figure moved"
    if rest := len(found.moves) - len(told):
        notes.append(f"{rest} more moved, none out of its range")
    for it in found.together:
        *others, last = (str(kept.index(at) + 1) for at in it.causes)
        besides = _list(it.figures.values())
        notes.append(f"{', '.join(others)} and {last} act on each other: beside the sum of each alone, {besides}")
    if found.prose:
        notes.append("the prose changed, too" if points else "only the prose changed")
    return Section(title, tuple(it.row for it in told), points, tuple(notes))


def _said(lines: tuple[Line, ...]) -> Iterator[str]:
    """The lines of a cause, as they were and as they are."""
    elsewhere = {it.then for it in lines if it.now is None} & {it.now for it in lines if it.then is None}
    for line in lines:
        field = line.where and f": {_item(line.now if line.then is None else line.then)}"
        files = () if line.where and line.file.endswith(".md") else (line.file,)
        fate = f"now {_item(line.now)}" if line.where else "changed"
        if line.now is None or line.then is None:
            fate = "gone" if line.now is None else "in another place" if line.now in elsewhere else "new"
        if line.now is not None or line.then not in elsewhere:
            yield shown(f"{', '.join((*files, *line.where))}{field or ''}, {fate}")


def _item(item: str | None) -> str:
    said = json.loads(item or '""')
    return " ".join((said if isinstance(said, str) else str(item)).split())


def idle(found: list[Compared]) -> list[str]:
    """What changed around the recipes and moves no figure of any."""
    around = [it for one in found for it in one.causes if it.lines[0].file != one.was]
    moving = {it.lines for it in around if it.moves}
    still = dict.fromkeys(it.lines for it in around if it.lines not in moving)
    return [f"{'; '.join(_said(lines))}: moves nothing" for lines in still]


def _does(cause: Cause, found: Compared) -> str:
    if not cause.moves:
        return "moves nothing"
    beyond = [it for it in cause.moves if it in found.moves and found.moves[it].beyond]
    first = [it for it in MAIN if it in cause.moves] or (beyond or [*cause.moves])[:FEW]
    more = len(cause.moves) - len(first)
    told = f"{_list(cause.moves[it] for it in first)}{f', and {more} more' if more else ''}"
    if sum(bool(it.moves) for it in found.causes) == 1 and not found.together:
        told = "all of this"
    return f"{'together, for one alone cannot be brewed' if cause.joined else 'by itself'}: {told}"


def _list(moves: Iterable[Move]) -> str:
    return ", ".join(f"{move.words} {move.by}" for move in moves)


def as_text(sections: list[Section]) -> Iterator[str]:
    """Lines for a terminal."""
    rows = [HEAD, *(row for it in sections for row in it.rows)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for at, it in enumerate(sections):
        yield f"\n{it.title}" if at else it.title
        for words, then, now, by, lay in (HEAD, *it.rows) if it.rows else ():
            yield f"  {words:{widths[0]}}  {then:>{widths[1]}}  {now:>{widths[2]}}  {by:{widths[3]}}  {lay}".rstrip()
        for number, point in enumerate(it.points, 1):
            yield f"  {number}. " + "\n     ".join(point)
        yield from (f"  {note}" for note in it.notes)


def as_markdown(sections: list[Section]) -> Iterator[str]:
    """Lines of Markdown; what would be a mark in an author's own words is none."""
    for it in sections:
        yield f"### {it.title.translate(MARKS)}\n"
        if it.rows:
            head, *rows = (f"| {' | '.join(cell.translate(MARKS) for cell in row)} |" for row in (HEAD, *it.rows))
            yield "\n".join((head, "|---|---:|---:|---:|---|", *rows, ""))
        for number, point in enumerate(it.points, 1):
            yield f"{number}. {'; '.join(point).translate(MARKS)}"
        yield "".join(f"\n{note.translate(MARKS)}\n" for note in it.notes)


def as_data(found: Compared) -> dict[str, object]:
    """A recipe's comparison for a program: numbers in the units that figures are kept in."""
    causes = [
        {
            "lines": [_line(line) for line in cause.lines],
            "joined": cause.joined,
            "moves": {it: _number(move)["by"] for it, move in cause.moves.items()},
        }
        for cause in found.causes
    ]
    together = [
        {"changes": list(it.causes), "figures": {figure: _number(move)["by"] for figure, move in it.figures.items()}}
        for it in found.together
    ]
    figures = {figure: _figure(move) for figure, move in found.moves.items()}
    about = {"recipe": found.path, "was": found.was, "title": found.now.words, "prose": found.prose}
    return {**about, "figures": figures, "changes": causes, "together": together}


def _figure(move: Move) -> dict[str, object]:
    value = move.now or move.then
    low, high = (float(bare(it)) for it in move.then.ends) if move.then else (None, None)
    about = {"words": move.words, "unit": value.unit if value else ""}
    return {**about, **_number(move), "low": low, "high": high, "beyond": move.beyond}


def _number(move: Move) -> dict[str, float | None]:
    then, now = (float(bare(it.number)) if it else None for it in (move.then, move.now))
    by = float(bare(move.now.number - move.then.number)) if move.now and move.then else None
    return {"then": then, "now": now, "by": by}


def _line(line: Line) -> dict[str, object]:
    """A line; of a whole file only whether it was there and is there."""
    then, now = (it and (json.loads(it) if line.where else True) for it in (line.then, line.now))
    return {"file": line.file, "where": list(line.where), "then": then, "now": now}
