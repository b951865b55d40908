"""How the hops of a line are used: boiled, stood, dry, or at a stage of the brew."""

import re
from collections.abc import Mapping
from dataclasses import replace

from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, HopUse, Stage, Stand
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.quantity import NUMBER, Quantity
from gristbook.reading.tree import Text
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.brew import Brew
from gristbook.text.parts.common import DEGREES
from gristbook.text.parts.hops import STAND, USES, Use
from gristbook.text.values import by_default, in_days, said

EXPECTED = "one of 60 min, flameout, first wort, whirlpool 20 min at 80 °C, dry 3 days, mash hop, in the keg"

ROOM_C = 20.0

STOOD_MIN, STOOD_C = 20.0, (70.0, 80.0, 98.0)
"""A stand of which nothing is said, and the least, the usual and the most that one is kept at (common practice, no
source)."""

DRY_DAYS = 3.0
"""Dry hops of which nothing is said (common practice, no source)."""

_HEAT = rf"[-\d.]+\s*(?:{DEGREES})?"
_STAND = (
    rf"(?P<minutes>.+?)(?: (?:at (?P<held>.+)|from (?P<start>{_HEAT}) to (?P<end>.+)"
    rf"|cooling from (?P<hot>{_HEAT}) to (?P<cool>.+?)(?: in a room of (?P<room>.+))?))?"
)


def read_use(line: Line, brew: Brew) -> HopUse | None:
    """How the hops of a line are used: a line says exactly one thing of it."""
    kinds: list[Stage | str] = [*named_uses(line)]
    kinds += [key for key in ("stand", "dry", "first wort") if line.get(key) and key not in kinds]
    if {"dry", Stage.PACKAGING} == {*kinds}:  # "dry hop in the cask, 7 days"
        kinds = [Stage.PACKAGING]
        if text := line.get("dry"):
            line.warning(f"{text.value} is not reckoned: they stay until it is drunk", at=text)
    if {"boil", "first wort"} == {*kinds}:  # "first wort, left in for the whole boil"
        kinds = ["first wort"]
    time, heat = line.get("time"), line.get("temperature")
    if not kinds and time and heat:
        kinds = ["stand"]
    minutes = line.quantity("time") if time else None
    if time and (not kinds or not _goes_with(kinds[0], minutes, line, brew)):
        kinds.append("time")
    if kinds == ["end", "time"]:  # "at flameout, leave for 20 min"
        kinds = ["stand"]
    if {*kinds} == {"time", "stand"} and minutes and not minutes.number:  # "0 min, hopstand 15 min at 80 °C"
        kinds = ["stand"]
    if heat and (not kinds or kinds[0] not in ("stand", "dry")):
        kinds.append("temperature")
    if len(kinds) != 1:
        names = [it.value if isinstance(it, Stage) else "flameout" if it == "end" else it for it in kinds]
        line.error(f"this hop says {' and '.join(names) or 'no time'}", EXPECTED)
        return None
    match kinds[0]:
        case Stage() as stage:
            return stage
        case "first wort":
            return FirstWort()
        case "stand":
            return _stand(line)
        case "dry":
            return _dry(line, brew)
        case "end":
            return BeforeTheEnd(given(0.0, "min", "time in the boil", words="the recipe: flameout", place=line.place))
    if not time:
        return BeforeTheEnd(given(brew.boil_min, "min", "time in the boil", words="the whole boil", place=line.place))
    minutes = brew.minutes_in_boil(line)
    return BeforeTheEnd(said(minutes, "time in the boil")) if minutes else None


def named_uses(line: Line) -> dict[Use, str]:
    """The uses that a line names, each with the trade's word for it; "flameout, stand" is a stand."""
    named = line.get("use")
    uses = dict(meant(text, USES) for text in named.split(",")) if named else {}
    if [*uses] == ["end", "stand"]:
        del uses["end"]
    return uses


def _goes_with(kind: str | Stage, minutes: Quantity | None, line: Line, brew: Brew) -> bool:
    """Whether a time says no second thing: that of a stand or of dry hops, none at the end, the boil of first wort."""
    if kind in ("stand", "dry", "boil"):
        return line.get(str(kind)) is None
    return minutes is None or minutes.number == {"end": 0.0, "first wort": brew.boil_min}.get(str(kind))


def _dry(line: Line, brew: Brew) -> BeforePackaging | None:
    """Days in the beer, and its temperature then; a guess is a warning, and so is another one than `ferment` says."""
    label, heat = "dry-hop contact", line.quantity("temperature")
    text = line.get("dry")
    if line.get("temperature") and heat is None:
        return None
    days = brew.in_the_beer(text, label, line) if text else None
    if text is None and (time := line.quantity("time")):
        days = in_days(time, label)
    if text is None and named_uses(line).get("dry"):  # into the fermenter, from the first day on
        days = sum_of((step.days for step in brew.ferment), label, "d")
    elif text is None and line.get("time") is None:
        line.warning(f"no days for dry hops: {DRY_DAYS:g} are taken", "dry 3 days")
        days = by_default(DRY_DAYS, "d", label, "common practice, no source")
    if days is None:
        return None
    found = brew.heat_before_packaging(days.number)
    if heat and found and abs(heat.number - found.number) > 2:
        what = f"dry hops at {heat.text}, where the beer is at {found.number:g} °C by ferment"
        line.warning(what, "a step of ferment at that temperature", at=heat)
    return BeforePackaging(days, said(heat, "temperature at dry hopping") if heat else None)


def _stand(line: Line) -> Stand | None:
    """A stand, told in one piece or in several; what is not said of it is taken, with a warning."""
    text, heated = line.get("stand"), "temperature of the stand"
    said_of = line.pieces(text, _STAND, STAND) if text else {}
    if said_of is None:
        return None
    pieces = {"minutes": line.get("time"), "held": line.get("temperature")}
    said_of = {key: piece for key, piece in pieces.items() if piece} | said_of
    minutes, heat = line.read(said_of.get("minutes"), f.TIME), _from_to(said_of, line)
    room = line.read(said_of.get("room"), f.TEMPERATURE)
    if ("minutes" in said_of and minutes is None) or (len(said_of) > ("minutes" in said_of) and heat is None):
        return None
    if "room" in said_of and room is None:
        return None
    time = said(minutes, "time of the stand", usual="stand time") if minutes else _taken(line, "time of the stand")
    if heat is None:
        held = _taken(line, heated)
        return Stand(time, held, held)
    stand = Stand(
        time,
        start=said(heat[0], heated, usual="stand temperature"),
        end=said(heat[1], "temperature at the end of the stand", usual="stand temperature", doubt=heated),
    )
    return _left_to_cool(stand, room, text or line.name, line) if "hot" in said_of else stand


def _taken(line: Line, label: str) -> Value:
    """What is taken for the time or the temperature of a stand of which nobody says it."""
    (low, heat, high), why = STOOD_C, "common practice, no source"
    if "temperature" in label:
        line.warning(f"no temperature for the stand: {heat:g} °C is taken", "whirlpool 20 min at 80 °C")
        ends = (low - heat, high - heat)
        return given(heat, "°C", label, words=f"by default: {why}", by=By.DEFAULT, ends=ends, doubt=label)
    line.warning(f"no time for the stand: {STOOD_MIN:g} min are taken", "whirlpool 20 min at 80 °C")
    return by_default(STOOD_MIN, "min", label, why, usual="stand time")


def _from_to(said_of: Mapping[str, Text], line: Line) -> tuple[Quantity, Quantity] | None:
    """The temperature at the start and at the end of a stand, the same where it is held."""
    start, end = said_of.get("start") or said_of.get("hot"), said_of.get("end") or said_of.get("cool")
    if start is None or end is None:
        bare = said_of.get("held")
        if bare and re.fullmatch(NUMBER, bare.value):  # a stand is no colder than this in °C, and no hotter
            bare = Text(f"{bare.value} {'°C' if float(bare.value) <= 100 else '°F'}", bare.place, exact=False)
            line.warning(f"{bare.value} is taken", f"at {bare.value}", at=bare)
        held = line.read(bare, f.TEMPERATURE)
        return None if held is None else (held, held)
    if start.value.replace(".", "").isdigit():  # "from 95 to 75 °C": the unit is said once
        scale = re.sub(r"^[-\d.\s]+", "", end.value)
        start = Text(f"{start.value} {scale}".strip(), start.place, exact=False)
    ended = line.read(end, f.TEMPERATURE)
    began = line.read(start, f.TEMPERATURE) if ended else None
    return None if began is None or ended is None else (began, ended)


def _left_to_cool(stand: Stand, room: Quantity | None, text: Text, line: Line) -> Stand | None:
    """A stand that cools by itself, which it cannot do in no time, nor to below the air of the room."""
    label = "temperature of the room"
    air = said(room, label) if room else by_default(ROOM_C, "°C", label, "a room, where nothing is said")
    start, end, minutes = stand.start.number, stand.end.number, stand.minutes.number
    if minutes > 0 and start > end > air.number:
        return replace(stand, air=air)
    what = (
        f"wort does not cool by itself from {start:g} to {end:g} °C in {minutes:g} min and a room of {air.number:g} °C"
    )
    line.error(what, STAND.words, at=text)
    return None
