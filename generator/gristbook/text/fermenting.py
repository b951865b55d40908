"""The lines of the ferment to the model: a temperature held, or two that it goes between, and what the step is for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from gristbook.model.steps import FermentRole, FermentStep, FermentWay
from gristbook.reading import fields as f
from gristbook.reading.lines import Line, meant
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.value import Value
from gristbook.text.parts.steps import COURSES, SPAN, STAGES
from gristbook.text.steps import missing, step_lines, usual_in, value_of, within_span
from gristbook.text.values import Desk, said

LABEL = "fermentation temperature"
EXAMPLE = "19 °C, 10 days"


def read_ferment(nodes: Sequence[Node], desk: Desk) -> tuple[FermentStep, ...]:
    """The steps of the ferment, in order; a line that says only how warm the yeast goes in belongs to the next."""
    steps: list[FermentStep] = []
    pitched: Value | None = None
    for line in step_lines(nodes, "ferment", desk):
        try:
            pitch = line.quantity("pitch")
            pitched = said(pitch, "the wort as the yeast goes in") if pitch else pitched
            if line.says != {"pitch"}:
                steps.append(_step(line, steps[-1] if steps else None, pitched))
                pitched = None
        except Unreadable:
            pitched = None
    return tuple(steps)


def _step(line: Line, before: FermentStep | None, pitched: Value | None) -> FermentStep:
    """A step of the ferment after another; `Unreadable` where it cannot be read."""
    stage, way = line.get("stage"), _way(line)
    role: FermentRole | None = meant(stage, ((key, it.pattern) for key, it in STAGES.items())) if stage else None
    usual = STAGES[role] if role else None
    since = before.last if before else pitched
    start, end = _temperatures(line, role, since)
    until = line.get("until")
    if until:
        line.warning(f'"{until.value}" is shown as a note, and not reckoned: its days count', at=until)
    key = "over" if line.get("over") else "time"
    days = usual_in(line, key, role, usual)
    missing(line, {"temperature": start, "time": days}, EXAMPLE)
    if start is None or days is None:
        raise Unreadable
    if way in ("ramp", "free rise") and end is None:
        if since is None:
            raise line.error(
                "nothing says what temperature it comes from", "something like from 9 to 12 °C", at=line.get("way")
            )
        start, end = since, start
    return FermentStep(
        start,
        value_of(line, key, days, "days", unit="d", factor=1 / 1440),
        line.place,
        end,
        way if end is not None else "held",
        role,
        stage.word if stage else "",
        _pressure(line, before),
        pitched if before is None else None,
        "; ".join(it for it in (until.value if until else "", line.note) if it),
    )


def _way(line: Line) -> FermentWay:
    said_so, span = line.get("way"), line.get("span")
    if said_so:
        return meant(said_so, COURSES.items())
    if line.get("over") or (span and span.word.startswith("from ")):
        return "ramp"
    return "between" if span else "held"


def _temperatures(line: Line, role: FermentRole | None, since: Value | None) -> tuple[Value | None, Value | None]:
    """The temperature of a step, and its other one where it has two."""
    span, usual = line.get("span"), STAGES[role] if role else None
    if span is None:
        heat = usual_in(line, "temperature", role, usual)
        if heat is None and line.get("way"):
            raise line.error("nothing says how warm it comes to be", "something like free rise to 22 °C")
        if heat is None:
            return (since if role or _goes_on(line) else None), None
        if role and usual:
            within_span(line, heat, role, usual)
        return _borne(line, value_of(line, "temperature", heat, LABEL)), None
    pieces = line.pieces(span, SPAN, f.TEMPERATURE) or {}
    low, high = pieces["low"], pieces["high"]
    if low.value[-1] not in "CcFf":
        low = Text(f"{low.value} {high.value[-1]}", low.place, exact=False)
    first, second = line.read(low, f.TEMPERATURE), line.read(high, f.TEMPERATURE)
    if first is None or second is None:
        raise Unreadable
    return _borne(line, said(first, LABEL)), _borne(line, said(second, f"{LABEL}, in the end"))


def _goes_on(line: Line) -> bool:
    """Whether it stays as warm as it was: "another week"."""
    time = line.get("time")
    return time is not None and time.word.startswith("another ")


def _borne(line: Line, heat: Value) -> Value:
    if not -5 <= heat.number <= 45:
        text = line.get("temperature") or line.get("span")
        raise line.error(f"no beer ferments at {text.value if text else ''}", "-5 to 45 °C (23 to 113 °F)", at=text)
    return heat


def _pressure(line: Line, before: FermentStep | None) -> Value | None:
    """The pressure of a step, above the air's: its own, or that of the step before."""
    text = line.get("pressure")
    if text is None:
        return None
    if text.value[0].isdigit() or text.value[0] == ".":
        read = line.read(text, f.PRESSURE)
        if read is None:
            raise Unreadable
        return said(read, "pressure while it ferments")
    if before is None or before.pressure is None:
        raise line.error("nothing says how high the pressure is", "under pressure 1 bar", at=text)
    return replace(before.pressure)
