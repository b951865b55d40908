"""Lines of a batch to the model: wort in a vessel, gravities, looks at the beer, packaging, tastings, the plan."""

import re
from dataclasses import replace
from datetime import datetime
from typing import cast

from gristbook.model.batch import Level, Moment, Packaged, Reading, Tasting, Vessel, WortStep
from gristbook.model.figures import figure_called
from gristbook.model.packing import PrimingSugar
from gristbook.problems import Problems, nearest
from gristbook.reading import fields as f
from gristbook.reading.fields import is_date
from gristbook.reading.line import Line
from gristbook.reading.lines import bare_line, read_line
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, Quantity, Unreadable, plain_number
from gristbook.reading.tree import Node, Table, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
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

_FIGURE = re.compile(
    rf"(?P<number>[-−]?{NUMBER})(?:\s*(?:±|\+/-)\s*(?P<half>{NUMBER}))?(?:\s*(?P<unit>[^\s(][^(]*?))?"
    rf"(?:\s*\((?P<low>[-−]?{NUMBER}) to (?P<high>[-−]?{NUMBER})\))?\s*"
)
"""A figure of a plan: `34.3 IBU (24 to 46)`, or `34.3 ± 11 IBU` as it once was written."""
_VOLUME = r"(?P<volume>.+?)(?: (?:(?P<hot>hot)|cool)| at (?P<heat>\S.*))?"
_MOMENT = r"(?P<day>\S+?)(?:[\sT]+(?P<hour>\d{1,2}):(?P<minute>\d{1,2}))?"

_WHERE = re.compile(
    r"\s*,?\s*(?:in the kettle\b\s*,?\s*)?(?:at\s+)?(?:the\s+)?"
    r"(?P<step>(?P<start>before the boil)|in(?:to)? the (?P<fermenter>fermenter)|end of the boil|in the kettle)\s*",
    re.IGNORECASE,
)


def taken_at(words: str) -> tuple[str, WortStep | None]:
    """A reading without the words that say where wort was measured, and where that is, if they do.

    >>> taken_at("27 L hot at 1.036, before the boil"), taken_at("23 L at 1.041")
    (('27 L hot at 1.036', 'before the boil'), ('23 L at 1.041', None))
    """
    match = _WHERE.search(words)
    if match is None:
        return words.strip(), None
    rest = f"{words[: match.start()]}, {words[match.end() :].lstrip(', ')}".strip(", ")
    if match["start"]:
        return rest, "before the boil"
    return rest, "in the fermenter" if match["fermenter"] else "end of the boil"


def read_level(node: Node, label: str, boiling: Value | None, problems: Problems) -> Level:
    """Wort in a vessel; `Unreadable` where it cannot be read. ``boiling`` is how warm "hot" is."""
    line = read_line(node, LEVEL_PARTS, problems, named=False, mark=LEVEL_MARK)
    before = len(problems)
    shared = _read(line.quantity("temperature"), f"temperature {label}")
    volume, warmth = _volume(line, label, boiling)
    gravity = _reading(line, f"gravity {label}", shared)
    if len(problems) > before:
        raise Unreadable
    if volume is None and gravity is None:
        raise line.error("neither a volume nor a gravity", LEVEL.words)
    return Level(volume, (warmth or shared) if volume else None, gravity, line.place)


def _volume(line: Line, label: str, boiling: Value | None) -> tuple[Value | None, Value | None]:
    """A volume and how warm it was, where its own words say so."""
    text = line.get("volume")
    match = fits(_VOLUME, text.value) if text else None
    if text is None or match is None:
        return None, None
    volume = _read(line.read(text.part(0, match.end("volume")), f.VOLUME), f"volume {label}")
    if match["heat"]:
        return volume, _read(line.read(text.part(match.start("heat")), f.TEMPERATURE), f"temperature {label}")
    if match["hot"]:
        unknown = by_default(100.0, "°C", "boiling point", "the plan names no boiling point")
        return volume, boiling or unknown
    return volume, None


def _reading(line: Line, label: str, warmth: Value | None) -> Reading | None:
    """The gravity of a line; its sample is as warm as all else of it where it says nothing of its own."""
    text = line.get("gravity")
    reading = read_reading(text, label, line) if text else None
    return replace(reading, sample=reading.sample or warmth) if reading else None


def read_reading(text: Text, label: str, line: Line) -> Reading | None:
    """What an instrument showed, and how warm its sample was; `None` with a problem filed otherwise."""
    shown, *rest = text.split(READING_MARK)
    if len(rest) > 1 or not all(part.value for part in (shown, *rest)):
        line.error(f'"{text.value}" is not a reading', READING.words, at=text)
        return None
    before = len(line.problems)
    gravity = _gravity(shown, label, line)
    sample = _read(line.read(rest[0] if rest else None, f.TEMPERATURE), f"temperature of the sample: {label}")
    if gravity is None or len(line.problems) > before:
        return None
    return Reading(gravity, sample, shown.place)


def _gravity(text: Text, label: str, line: Line) -> Value | None:
    """A gravity as it was read; one that lost its point is told what it may have been."""
    if re.fullmatch(r"(?:9[89]|1[01])\d\d", text.value):
        meant = f"{float(text.value) / 1000:.3f}"
        line.error(f'"{text.value}" has lost its point', at=text, suggestion=meant)
        return None
    read = line.read(text, f.SHOWN)
    return _read(read, f"{label}, as read", unit=read.base or "SG") if read else None


def _read(read: Quantity | None, label: str, unit: str = "", factor: float = 1.0) -> Value | None:
    """What the brewer read, as a value."""
    return said(read, label, unit=unit, factor=factor, by=By.READER, origin=ORIGIN) if read else None


def read_moment(node: Node, problems: Problems) -> Moment:
    """A look at the fermenting beer; `Unreadable` where it cannot be read."""
    line = read_line(node, MOMENT_PARTS, problems, named=False)
    day = line.get("day")
    if day is None:
        raise line.error("no day", "2026-03-17, 1.018, 19 °C")
    before = len(problems)
    when = _instant(day, line)
    temperature = _read(line.quantity("temperature"), f"temperature on {day.value}")
    gravity = _reading(line, f"gravity on {day.value}", temperature)
    if when is None or len(problems) > before:
        raise Unreadable
    if gravity is None and temperature is None:
        raise line.error("nothing was read", "2026-03-17, 1.018, 19 °C")
    return Moment(when, gravity, temperature, line.place)


def read_day(text: Text, line: Line) -> str:
    """A day as it is written, "" with a problem filed where there is no such day."""
    if is_date(text.value):
        return text.value
    line.error(f'"{text.value}" is not a date', f.DATE.words, at=text)
    return ""


def _instant(text: Text, line: Line) -> datetime | None:
    """A day and its time; noon, the middle of the day, where no time is said."""
    match = fits(_MOMENT, text.value)
    if match is None or not read_day(text.part(0, match.end("day")), line):
        return None
    hour, minute = int(match["hour"] or 12), int(match["minute"] or 0)
    if hour > 23 or minute > 59:
        what = f'"{match["hour"]}:{match["minute"]}" is no time of day'
        line.error(what, "a time, as 07:30", at=text.part(match.start("hour")))
        return None
    return datetime.fromisoformat(match["day"]).replace(hour=hour, minute=minute)


def read_packaged(node: Node, desk: Desk) -> Packaged:
    """The day of packaging; `Unreadable` where it cannot be read."""
    line = read_line(node, PACKAGED_PARTS, desk.problems, named=False)
    written = line.get("day")
    if written is None:
        raise line.error("no day", "2026-03-28, 19 L, 95 g table sugar")
    before = len(desk.problems)
    day, litres, vessel = read_day(written, line), line.quantity("volume"), line.get("vessel")
    sugar, primer = _priming(line, desk)
    if len(desk.problems) > before:
        raise Unreadable
    return Packaged(
        day=day,
        volume=_read(litres, "beer packaged"),
        sugar=_read(sugar, "priming sugar", unit="g", factor=1000.0),
        primer=primer,
        vessel=cast(Vessel, vessel.word if vessel else "bottles"),
        place=line.place,
    )


def _priming(line: Line, desk: Desk) -> tuple[Quantity | None, PrimingSugar | None]:
    text = line.get("sugar")
    if text is None:
        return None, None
    match = re.match(r".*?\b(?:k?g|oz|lbs?)\b(?:\s*(?:±|\+/-)\s*[\d.]+)?", text.value, re.IGNORECASE)
    end = match.end() if match else 0
    mass, name = line.read(text.part(0, end), f.MASS), text.part(end)
    of = len(name.value) - len(name.value.removeprefix("of "))
    return mass, read_priming_sugar(name.part(of), line, desk)


def read_tasting(node: Node, problems: Problems) -> Tasting:
    """A day and how it tasted; `Unreadable` where it cannot be read."""
    example = "2026-04-20, soft, a little sweet"
    if not isinstance(node, Text):
        problems.error(node.place, "a tasting is a line", expected=example)
        raise Unreadable
    written, _, words = node.value.partition(",")
    line = bare_line(node, problems)
    day = read_day(node.part(0, len(written)), line)
    if not day:
        raise Unreadable
    if not words.strip():
        raise line.error("no words", example)
    return Tasting(day, " ".join(words.split()), node.place)


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
    number = _plan_number(match["number"])
    half = _plan_number(match["half"] or "0")
    low, high = (_plan_number(match[part]) if match[part] else number + side * half for part, side in _ENDS)
    if max(map(abs, (number, low, high))) > 1e9:
        problems.error(text.place, "a number that no plan can hold", within=text.value)
        return None
    least, most = PLAN_UNITS[unit]
    if not low <= number <= high:
        problems.error(text.place, f'"{text.value}" does not lie in its own range', expected="low, number, high")
        return None
    if not least - SLACK <= number <= most + SLACK or high - low > 2 * (most - least):
        size = "below" if number < least else "above"
        what = f'"{text.value}" is {size} what {name} can be'
        problems.error(text.place, what, expected=f"{least:g} to {most:g}{'' if unit == 'SG' else f' {unit}'}")
        return None
    origin = f"the plan when this was begun: {text.value}"
    ends = (low - number, high - number)
    return given(number, unit, name, words=origin, by=By.PLAN, place=text.place, ends=ends)


_ENDS = (("low", -1), ("high", 1))


def _plan_number(written: str) -> float:
    try:
        return plain_number(written.lstrip("-−")) * (-1 if written[0] in "-−" else 1)
    except ZeroDivisionError:
        return float("inf")
