"""The lines of the ferment to the model: a temperature held, or two that it goes between, and what the step is for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace

from gristbook.model.steps import FermentRole, FermentStep, FermentWay
from gristbook.reading import fields as f
from gristbook.reading.apart import line_with_a_colon
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, Quantity, Unreadable, plain_number
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.units import UNITS
from gristbook.sheet.arithmetic import less
from gristbook.sheet.value import Value
from gristbook.text.parts.common import DEGREES
from gristbook.text.parts.steps import AMBIENT, COURSES, SPAN, STAGES
from gristbook.text.steps import EXAMPLES, missing, step_lines, usual_in, value_of, within_span
from gristbook.text.values import Desk, said
from gristbook.text.vocabulary import LINES

LABEL = "fermentation temperature"
EXAMPLE = EXAMPLES["ferment"]
ROUGHLY = 0.15
"""So far apart may days lie that are told twice: nobody divides degrees to the hour."""
DAYS_OF = re.compile(r"\bdays? (\d+)\s*(?:[-–]|to|until|through)\s*(?:day )?(\d+)", re.IGNORECASE)
UNTIL = "5 days"
"""Taken for a step that waits for something (common practice, no source)."""


def read_ferment(nodes: Sequence[Node], desk: Desk) -> tuple[FermentStep, ...]:
    """The steps of the ferment, in order; a line that says only how warm the yeast goes in belongs to the next."""
    steps: list[FermentStep] = []
    pitched: Value | None = None
    begun: Line | None = None
    for line in step_lines([_in_days(it) for it in nodes], "ferment", desk):
        with suppress(Unreadable):
            pitch = line.quantity("pitch")
            pitched = said(pitch, "the wort as the yeast goes in") if pitch else pitched
            if (
                steps
                and steps[-1].end is None
                and line.says in ({"temperature", "way"}, {"span"})
                and _way(line) != "between"
            ):
                steps[-1] = _risen(steps[-1], line)
                continue
            start, begun = begun, line if line.says == {"temperature"} else None
            if line.says == {"pitch"} or begun:
                continue
            since = _since(start, line) or (steps[-1].last if steps else pitched)
            steps.append(_step(line, steps[-1] if steps else None, pitched, since))
            steps += _held_after(steps[-1], line)
        pitched = pitched if line.says == {"pitch"} else None
    if begun:
        with suppress(Unreadable):
            missing(begun, {"time": None}, EXAMPLE)
    return tuple(steps)


def _in_days(node: Node) -> Node:
    """A line with its days counted: "days 5 to 14 at 20 °C" are ten at it."""
    text = line_with_a_colon(node, LINES["ferment"]) if isinstance(node, Table) else node
    if not isinstance(text, Text):
        return node
    if not re.search(rf"\d\s*{DEGREES}", text.value, re.IGNORECASE):
        return node
    told = DAYS_OF.sub(lambda days: f"{int(days[2]) - int(days[1]) + 1} days", text.value)
    return Text(told, text.place, exact=False) if told != text.value else node


def _risen(step: FermentStep, line: Line) -> FermentStep:
    """A step that goes, in its own days, on to the temperature of a line without any."""
    start, end = _temperatures(line, None, step.last)
    heat = end or start
    if heat is None:
        raise Unreadable
    line.warning("no time for it: the days of the step before are taken", f"{step.days.number:g} days", at=line.name)
    return replace(step, end=heat, way=_way(line))


def _held_after(step: FermentStep, line: Line) -> Iterator[FermentStep]:
    """What is left of the days of a line that goes to its temperature in fewer: "to 22 °C over 5 days, 14 days"."""
    whole = line.quantity("time") if line.get("over") or line.get("rate") else None
    if whole is not None and step.end is not None and whole.number / 1440 > step.days.number:
        left = less(
            said(whole, "days", unit="d", factor=1 / 1440), step.days, left="the days of the step", label="days"
        )
        yield FermentStep(step.end, left, step.place, None, "held", step.role, "", step.pressure)


def _since(start: Line | None, line: Line) -> Value | None:
    """Where a rise begins, by a line before it of a temperature alone: "start at 20 °C, let it rise to 27 °C"."""
    if start is None:
        return None
    heat = start.quantity("temperature")
    if heat is None or _way(line) not in ("ramp", "free rise"):
        missing(start, {"time": None}, EXAMPLE)
        raise Unreadable
    return _borne(start, said(heat, LABEL))


def _step(line: Line, before: FermentStep | None, pitched: Value | None, since: Value | None) -> FermentStep:
    """A step of the ferment after another, which comes from a temperature; `Unreadable` where it cannot be read."""
    stage, way = line.get("stage"), _way(line)
    role: FermentRole | None = meant(stage, ((key, it.pattern) for key, it in STAGES.items())) if stage else None
    usual = STAGES[role] if role else None
    start, end = _temperatures(line, role, since)
    key = next((key for key in ("over", "rate", "time") if line.get(key)), "time")
    by_rate = _by_its_rate(since if end is None else start, end or start, line) if line.get("rate") else None
    days = by_rate if by_rate and key == "rate" else usual_in(line, key, role, usual)
    if until := line.get("until"):
        taken = f"{UNTIL} are taken" if days is None else "its days count"
        line.warning(
            f'"{until.value}" is shown as a note, and not reckoned: {taken}', "" if days else "its own days", at=until
        )
        days = days or line.read(Text(UNTIL, line.place, exact=False), f.DAYS)
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


def _by_its_rate(since: Value | None, to: Value | None, line: Line) -> Quantity:
    """How long it goes from one temperature to another, so many degrees a day."""
    rate = line.get("rate")
    read = re.match(rf"(?P<number>{NUMBER})\s*(?P<scale>{DEGREES})", rate.value, re.IGNORECASE) if rate else None
    if rate is None or read is None or since is None or to is None:
        raise line.error("nothing says between what temperatures", "something like from 9 to 12 °C", at=rate)
    heat = line.get("temperature") or line.get("span")
    scale = read["scale"][-1] if read["scale"][-1] in "CcFf" or heat is None else heat.value[-1]
    a_day = plain_number(read["number"]) * (UNITS["fahrenheit"].factor if scale in "Ff" else 1.0)
    taken = Quantity(1440 * abs(to.number - since.number) / a_day, "min", rate.value, rate.place)
    told = line.quantity("over") or line.quantity("time")
    if told and (told.number < (1 - ROUGHLY) * taken.number or (line.get("over") and not _alike(told, taken))):
        what = (
            f'"{told.text}" and "{rate.value}" are not the same: at that rate it takes {taken.number / 1440:.3g} days'
        )
        raise line.error(what, "one of them", at=rate)
    return taken


def _alike(one: Quantity, other: Quantity) -> bool:
    return abs(one.number - other.number) <= ROUGHLY * max(one.number, other.number)


def _way(line: Line) -> FermentWay:
    said_so, span = line.get("way"), line.get("span")
    if said_so:
        return meant(said_so, COURSES.items())
    course = (fits(SPAN, span.value) or {"course": ""})["course"] if span else ""
    if course and "free" in course:
        return "free rise"
    return (
        "ramp"
        if course or line.get("over") or line.get("rate") or (span and span.word.startswith("from "))
        else "between"
        if span
        else "held"
    )


def _temperatures(line: Line, role: FermentRole | None, since: Value | None) -> tuple[Value | None, Value | None]:
    """The temperature of a step, and its other one where it has two."""
    span, usual = line.get("span"), STAGES[role] if role else None
    if span is None:
        heat = usual_in(line, "temperature", role, usual) or line.quantity("pitch")
        if heat is None and (place := line.get("ambient")):
            taken = meant(place, AMBIENT.items())
            line.warning(f'"{place.value}" is taken as {taken}', "its temperature", at=place)
            heat = line.read(Text(taken, place.place, exact=False), f.TEMPERATURE)
        if heat is None and line.get("way"):
            raise line.error("nothing says how warm it comes to be", "something like free rise to 22 °C")
        if heat is None:
            if since is not None and not (role or _goes_on(line)):
                line.warning(f"no temperature: {since.number:.3g} °C is taken, as before", "its own temperature")
            return since, None
        if role and usual:
            within_span(line, heat, role, usual)
        return _borne(line, value_of(line, "temperature", heat, LABEL)), None
    pieces = line.pieces(span, SPAN, f.TEMPERATURE) or {}
    low, high = pieces["low"], pieces["high"]
    if low.value[-1].isdigit():
        low = Text(f"{low.value} {re.sub(rf'^[-−]?{NUMBER}', '', high.value)}", low.place, exact=False)
    first, second = line.read(low, f.OF_BEER), line.read(high, f.OF_BEER)
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
