"""Lines of a batch to the model: wort in a vessel, gravities, looks at the beer, packaging, tastings, the plan."""

from __future__ import annotations

import re
from datetime import date, datetime
from typing import cast

from gristbook.model.batch import Level, Moment, Packaged, Reading, Tasting, Vessel
from gristbook.model.figures import figure_called
from gristbook.model.recipe import PrimingSugar
from gristbook.problems import Problems, nearest
from gristbook.reading import fields as f
from gristbook.reading.fields import read_quantity
from gristbook.reading.lines import read_line
from gristbook.reading.quantity import NUMBER, Quantity, plain_number
from gristbook.reading.tree import Node, Table, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, between, given
from gristbook.text.batch_vocabulary import (
    LEVEL,
    LEVEL_MARK,
    LEVEL_PARTS,
    MOMENT_PARTS,
    PACKAGED_PARTS,
    PLAN_UNITS,
    READING,
    READING_MARK,
)
from gristbook.text.priming import read_priming_sugar
from gristbook.text.values import Desk, by_default, said

ORIGIN = "the batch"

SLACK = 1e-6
"""What the rounding of a figure that was written down may make of its bound."""

_FIGURE = re.compile(rf"(?P<number>[-−]?{NUMBER})(?:\s*(?:±|\+/-)\s*(?P<half>{NUMBER}))?(?:\s*(?P<unit>\S.*))?")
_VOLUME = re.compile(r"(?P<volume>.+?)(?:\s+(?P<hot>hot|cool)|\s+at\s+(?P<heat>\S.*))?", re.IGNORECASE)
_MOMENT = re.compile(r"(?P<day>\S+?)(?:[\sT]+(?P<hour>\d{1,2}):(?P<minute>\d{1,2}))?", re.IGNORECASE)


def read_level(node: Node, label: str, boiling: Value | None, problems: Problems) -> Level | None:
    """Wort in a vessel; `None` with a problem filed where it cannot be read. ``boiling`` is how warm "hot" is."""
    line = read_line(node, LEVEL_PARTS, problems, named=False, mark=LEVEL_MARK)
    if line is None:
        return None
    before = len(problems)
    shared = _degrees(line.get("temperature"), f"temperature {label}", line.whole, problems)
    volume, warmth = _volume(line.get("volume"), label, boiling, line.whole, problems)
    text = line.get("gravity")
    gravity = read_reading(text, f"gravity {label}", problems, line.whole) if text else None
    if len(problems) > before:
        return None
    if volume is None and gravity is None:
        problems.error(line.place, "neither a volume nor a gravity", within=line.whole, expected=LEVEL.words)
        return None
    if gravity is not None and gravity.sample is None:
        gravity = Reading(gravity.shown, shared, gravity.place)
    return Level(volume, (warmth or shared) if volume else None, gravity, line.place)


def _volume(
    text: Text | None, label: str, boiling: Value | None, whole: str, problems: Problems
) -> tuple[Value | None, Value | None]:
    """A volume and how warm it was, where its own words say so."""
    match = _VOLUME.fullmatch(text.value) if text else None
    if text is None or match is None:
        return None, None
    read = read_quantity(text.part(0, match.end("volume")), f.VOLUME, problems, whole)
    volume = said(read, f"volume {label}", by=By.READER, origin=ORIGIN) if read else None
    if match["heat"]:
        return volume, _degrees(text.part(match.start("heat")), f"temperature {label}", whole, problems)
    if (match["hot"] or "").casefold() == "hot":
        unknown = by_default(100.0, "°C", "boiling point", "the plan names no boiling point")
        return volume, boiling or unknown
    return volume, None


def read_reading(text: Text, label: str, problems: Problems, within: str = "") -> Reading | None:
    """What an instrument showed, and how warm its sample was; `None` with a problem filed otherwise."""
    shown, *rest = text.split(READING_MARK)
    if len(rest) > 1 or not all(part.value for part in (shown, *rest)):
        problems.error(text.place, f'"{text.value}" is not a reading', within=within, expected=READING.words)
        return None
    before, heat = len(problems), rest[0] if rest else None
    gravity = _gravity(shown, label, within or text.value, problems)
    sample = _degrees(heat, f"temperature of the sample: {label}", within or text.value, problems)
    if gravity is None or len(problems) > before:
        return None
    return Reading(gravity, sample, shown.place)


def _gravity(text: Text, label: str, within: str, problems: Problems) -> Value | None:
    """A gravity as it was read; one that lost its point is told what it may have been."""
    if re.fullmatch(r"(?:9[89]|1[01])\d\d", text.value):
        problems.error(
            text.place,
            f'"{text.value}" has lost its point',
            within=within,
            suggestion=f"{float(text.value) / 1000:.3f}",
        )
        return None
    read = read_quantity(text, f.SHOWN, problems, within)
    return said(read, f"{label}, as read", unit=read.base or "SG", by=By.READER, origin=ORIGIN) if read else None


def _degrees(text: Text | None, label: str, within: str, problems: Problems) -> Value | None:
    read = read_quantity(text, f.TEMPERATURE, problems, within) if text else None
    return said(read, label, by=By.READER, origin=ORIGIN) if read else None


def read_moment(node: Node, problems: Problems) -> Moment | None:
    """A look at the fermenting beer; `None` with a problem filed where it cannot be read."""
    line = read_line(node, MOMENT_PARTS, problems, named=False)
    if line is None:
        return None
    day = line.get("day")
    if day is None:
        problems.error(line.place, "no day", within=line.whole, expected="2026-03-17, 1.018, 19 °C")
        return None
    before = len(problems)
    when = _instant(day, line.whole, problems)
    temperature = _degrees(line.get("temperature"), f"temperature on {day.value}", line.whole, problems)
    text = line.get("gravity")
    gravity = read_reading(text, f"gravity on {day.value}", problems, line.whole) if text else None
    if when is None or len(problems) > before:
        return None
    if gravity is None and temperature is None:
        problems.error(line.place, "nothing was read", within=line.whole, expected="2026-03-17, 1.018, 19 °C")
        return None
    if gravity is not None and gravity.sample is None:
        gravity = Reading(gravity.shown, temperature, gravity.place)
    return Moment(when, gravity, temperature, line.place)


def read_day(text: Text, within: str, problems: Problems) -> str:
    """A day as it is written, "" with a problem filed where there is no such day."""
    try:
        if (day := date.fromisoformat(text.value).isoformat()) == text.value:
            return day
    except ValueError:
        pass
    problems.error(text.place, f'"{text.value}" is not a date', within=within, expected=f.DATE.words)
    return ""


def _instant(text: Text, within: str, problems: Problems) -> datetime | None:
    """A day and its time; noon, the middle of the day, where no time is said."""
    match = _MOMENT.fullmatch(text.value)
    if match is None or not read_day(text.part(0, match.end("day")), within, problems):
        return None
    hour, minute = int(match["hour"] or 12), int(match["minute"] or 0)
    if hour > 23 or minute > 59:
        what = f'"{match["hour"]}:{match["minute"]}" is no time of day'
        problems.error(text.part(match.start("hour")).place, what, within=within, expected="a time, as 07:30")
        return None
    return datetime.fromisoformat(match["day"]).replace(hour=hour, minute=minute)


def read_packaged(node: Node, desk: Desk) -> Packaged | None:
    """The day of packaging; `None` with a problem filed where it cannot be read."""
    problems = desk.problems
    line = read_line(node, PACKAGED_PARTS, problems, named=False)
    if line is None:
        return None
    written = line.get("day")
    if written is None:
        problems.error(line.place, "no day", within=line.whole, expected="2026-03-28, 19 L, 95 g table sugar")
        return None
    before = len(problems)
    day = read_day(written, line.whole, problems)
    volume, primed, vessel = line.get("volume"), line.get("sugar"), line.get("vessel")
    litres = read_quantity(volume, f.VOLUME, problems, line.whole) if volume else None
    sugar, primer = _priming(primed, line.whole, desk) if primed else (None, None)
    if len(problems) > before:
        return None
    into = cast(Vessel, vessel.word if vessel else "bottles")
    return Packaged(
        day=day,
        volume=said(litres, "beer packaged", by=By.READER, origin=ORIGIN) if litres else None,
        sugar=said(sugar, "priming sugar", unit="g", factor=1000.0, by=By.READER, origin=ORIGIN) if sugar else None,
        primer=primer,
        vessel=into,
        place=line.place,
    )


def _priming(text: Text, within: str, desk: Desk) -> tuple[Quantity | None, PrimingSugar | None]:
    match = re.match(r".*?\b(?:k?g|oz|lbs?)\b(?:\s*(?:±|\+/-)\s*[\d.]+)?", text.value, re.IGNORECASE)
    end = match.end() if match else 0
    mass, name = desk.quantity(text.part(0, end), f.MASS, within), text.part(end)
    of = len(name.value) - len(name.value.removeprefix("of "))
    return mass, read_priming_sugar(name.part(of), within, desk)


def read_tasting(node: Node, problems: Problems) -> Tasting | None:
    """A day and how it tasted; `None` with a problem filed where it cannot be read."""
    if not isinstance(node, Text):
        problems.error(node.place, "a tasting is a line", expected="2026-04-20, soft, a little sweet")
        return None
    written, _, words = node.value.partition(",")
    day = read_day(node.part(0, len(written)), node.value, problems)
    if day and not words.strip():
        problems.error(node.place, "no words", within=node.value, expected="2026-04-20, soft, a little sweet")
    return Tasting(day, " ".join(words.split()), node.place) if day and words.strip() else None


def read_plan(table: Table, problems: Problems) -> dict[str, Value]:
    """The plan's figures by id, whatever they were called then, as they were written down when the batch was begun."""
    found: dict[str, Value] = {}
    for name, node in table.entries:
        value = _figure(name.value, node, problems) if isinstance(node, Text) else None
        if not isinstance(node, Text):
            problems.error(node.place, f"{name.value} is not a figure", expected="something like 1.0432 ± 0.0021")
        if value is not None:
            figure = figure_called(name.value)
            found[figure.id if figure is not None else name.value] = value
    return found


def _figure(name: str, text: Text, problems: Problems) -> Value | None:
    match = _FIGURE.fullmatch(text.value)
    unit = " ".join((match["unit"] or "SG").split()) if match else ""
    if match is None or unit not in PLAN_UNITS:
        near = nearest(unit, PLAN_UNITS) if match else ""
        what = f'"{text.value}" is not a figure' if match is None else f'unknown unit "{unit}" of a plan'
        place = text.part(match.start("unit")).place if match else text.place
        problems.error(place, what, within=text.value, expected="" if near else "as brew wrote it", suggestion=near)
        return None
    try:
        number, half = (plain_number((match[part] or "0").lstrip("-−")) for part in ("number", "half"))
    except ZeroDivisionError:
        number = half = float("inf")
    if max(number, half) > 1e9:
        problems.error(text.place, "a number that no plan can hold", within=text.value)
        return None
    number *= -1 if match["number"][0] in "-−" else 1
    least, most = PLAN_UNITS[unit]
    if not least - SLACK <= number <= most + SLACK or half > most - least:
        size = "below" if number < least else "above"
        what = f'"{text.value}" is {size} what {name} can be'
        problems.error(text.place, what, expected=f"{least:g} to {most:g}{'' if unit == 'SG' else f' {unit}'}")
        return None
    origin = f"the plan when this was begun: {text.value}"
    return given(number, unit, name, words=origin, by=By.PLAN, place=text.place, sd=between(-half, half))
