"""What a comparison found, as plain text, as Markdown for the summary of a change, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from gristbook.cli.comparing.causes import Cause, Compared
from gristbook.cli.comparing.lines import Line
from gristbook.model.figures import words_of
from gristbook.reading.names import shown
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, bare, moved, span

MAIN = ("original-gravity", "final-gravity", "alcohol-by-volume", "bitterness", "colour")
"""The figures that a brewer looks at first."""

FEW = 4
"""Figures that a change is told to move, where it moves none of those."""

MARKS = str.maketrans({mark: f"\\{mark}" for mark in "\\`*_|<>[]#@~"})


@dataclass
class Section:
    """A heading, rows of a table of figures, and points, each of them a few lines."""

    title: str
    rows: list[tuple[str, ...]] = field(default_factory=list)
    points: list[tuple[str, ...]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def section(found: Compared, *, whole: bool) -> Section:
    """A recipe's comparison; of the ``whole`` of its figures, or of those that matter in a list of recipes."""
    us, title = found.now.us_first, found.now.words
    causes = [it for it in found.causes if whole or it.moves or not it.lines[0].file]
    points = [(*_lines(cause), _does(cause, found)) for cause in causes]
    if not found.moves:
        why = "only its prose changed" if found.prose and not points else "" if points else "nothing changed"
        return Section(": ".join(filter(None, (f"{title}: no figure moved", why))), [], points)
    told = {it: pair for it, pair in found.moves.items() if whole or it in MAIN or _beyond(*pair)}
    rows = [
        (words_of(it), _own(then, us), _own(now, us), _by(then, now, us), _against(then, now, us))
        for it, (then, now) in told.items()
    ]
    notes = [f"{len(found.moves) - len(told)} more figures moved within their ranges"] if len(told) < len(found.moves) else []
    for pair in found.together:
        figures = ", ".join(
            f"{words_of(it)} {_further(found.then[it].value, by, us)}" for it, by in pair.figures.items()
        )
        lines = " and ".join(str(at + 1) for at in pair.causes)
        notes.append(f"Changes {lines} act together: what both do is not the sum of what each does ({figures} besides)")
    if found.prose:
        notes.append("its prose changed, too")
    return Section(title, rows, points, notes)


def _lines(cause: Cause) -> Iterator[str]:
    """The lines of a cause, as they were and as they are."""
    came = {line.now for line in cause.lines if line.then is None}
    for line in cause.lines:
        where = ", ".join((*([line.file] if line.file.endswith("yaml") or not line.where else []), *line.where))
        then, now = (_said(line, it) for it in (line.then, line.now))
        if line.now is None and line.where and line.then in came:
            continue
        if not line.where:
            yield f"{where}: {'new' if line.then is None else 'gone' if line.now is None else 'changed'}"
        elif line.then is None:
            gone = line.now in {it.then for it in cause.lines}
            yield f"{where}: {now}, {'in another place' if gone else 'new'}"
        else:
            yield f"{where}: {then}, {'gone' if line.now is None else f'now {now}'}"


def _said(line: Line, item: str | None) -> str:
    said = json.loads(item) if item is not None and line.where else ""
    return shown((said if isinstance(said, str) else item or "").replace("\n", " "))


def _does(cause: Cause, found: Compared) -> str:
    us = found.now.us_first
    first = [it for it in MAIN if it in cause.moves] or [*cause.moves][:FEW]
    more = len(cause.moves) - len(first)
    told = [f"{words_of(it)} {_by(*cause.moves[it], us)}" for it in first] + ([f"{more} more"] if more else [])
    alone = "together, for alone they make nothing that can be brewed" if cause.joined else "by itself"
    if len(found.causes) == 1 and cause.moves:
        return "this did all of it"
    return f"{alone}: {', '.join(told)}" if told else "moves nothing"


def _own(value: Value | None, us: bool) -> str:
    return _text(amount(value), us) if value is not None else "none"


def _text(it: Amount, us: bool) -> str:
    return (us and it.us or it.metric).replace("\N{NO-BREAK SPACE}", " ")


def _by(then: Value | None, now: Value | None, us: bool) -> str:
    if then is None or now is None:
        return "new" if then is None else "gone"
    return moved(then, now, us=us).replace("\N{NO-BREAK SPACE}", " ")


def _further(value: Value, by: float, us: bool) -> str:
    from dataclasses import replace

    return _by(value, replace(value, number=value.number + by), us)


def _beyond(then: Value | None, now: Value | None) -> bool:
    """Whether a figure lies where not nine in ten of the brews of then did."""
    return then is None or now is None or not then.low <= now.number <= then.high


def _against(then: Value | None, now: Value | None, us: bool) -> str:
    between = span(then) if then is not None else None
    if between is None or now is None:
        return ""
    return f"{'beyond' if _beyond(then, now) else 'within'} {_text(between, us).replace(' and ', ' to ')}"


def as_text(sections: Iterable[Section]) -> Iterator[str]:
    """Lines for a terminal."""
    for at, it in enumerate(sections):
        yield f"\n{it.title}" if at else it.title
        for words, then, now, by, against in it.rows:
            yield f"  {words:44} {then:>16} {now:>16}  {by:12} {against}".rstrip()
        for number, (first, *rest) in enumerate(it.points, 1):
            yield f"  {number}. {first}"
            yield from (f"     {line}" for line in rest)
        yield from (f"  {note}" for note in it.notes)


def as_markdown(sections: Iterable[Section]) -> Iterator[str]:
    """Lines of Markdown; what would be a mark in an author's own words is none."""
    for it in sections:
        yield f"### {it.title.translate(MARKS)}\n"
        if it.rows:
            yield "| figure | then | now | moved | nine in ten of then |\n|---|---:|---:|---:|---|"
            yield from (f"| {' | '.join(cell.translate(MARKS) for cell in row)} |" for row in it.rows)
            yield ""
        for number, point in enumerate(it.points, 1):
            yield f"{number}. {'; '.join(point).translate(MARKS)}"
        yield from (f"\n{note.translate(MARKS)}" for note in it.notes)
        yield ""


def as_data(found: Compared) -> dict[str, object]:
    """A recipe's comparison for a program."""
    return {
        "recipe": found.path,
        "was": found.was,
        "title": found.now.words,
        "prose": found.prose,
        "figures": {it: _pair(it, *pair) for it, pair in found.moves.items()},
        "changes": [
            {
                "lines": [_line(line) for line in cause.lines],
                "joined": cause.joined,
                "moves": {it: _number(*pair) for it, pair in cause.moves.items()},
            }
            for cause in found.causes
        ],
        "together": [
            {"changes": list(it.causes), "figures": {figure: float(bare(by)) for figure, by in it.figures.items()}}
            for it in found.together
        ],
    }


def _pair(figure: str, then: Value | None, now: Value | None) -> dict[str, object]:
    value = now or then
    assert value, "one side has it"
    ends = {"low": float(bare(then.low)), "high": float(bare(then.high))} if then else {"low": None, "high": None}
    beyond = _beyond(then, now) if then and now else None
    return {"words": words_of(figure), "unit": value.unit, **_number(then, now), **ends, "beyond": beyond}


def _number(then: Value | None, now: Value | None) -> dict[str, float | None]:
    before, after = (float(bare(it.number)) if it else None for it in (then, now))
    by = float(bare(now.number - then.number)) if then and now else None
    return {"then": before, "now": after, "by": by}


def _line(line: Line) -> dict[str, object]:
    """A line; of a whole file only whether it was there and is there."""
    then, now = (it if it is None else json.loads(it) if line.where else True for it in (line.then, line.now))
    return {"file": line.file, "where": list(line.where), "then": then, "now": now}
