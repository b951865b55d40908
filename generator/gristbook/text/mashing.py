"""The lines of the mash to the model: its rests, the water that is poured in for them, the sparge."""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from gristbook.model.steps import MashRole, MashStep, Sparge
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.lines import meant, readable
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value
from gristbook.text.parts.common import MINUTES
from gristbook.text.parts.steps import ADDED, MASH, RESTS, SPARGE, STRIKE, WAYS
from gristbook.text.steps import EXAMPLES, missing, step_lines, usual_in, value_of, within_span
from gristbook.text.values import Desk, by_default, said

LABEL = "mash temperature"
MEANWHILE_C = 67.0
"""Stands for a rest's temperature until its water says it."""
MASH_OUT_C = 75.0
"""From here on a temperature without a time is that of a mash out (common practice, no source)."""
MAIN: MashRole = "saccharification rest"
"""What a mash of one temperature, and no time, is."""
DOUGH_IN = RESTS["dough in"].pattern
THICKNESS = next(it.pattern for it in MASH if it.key == "thickness")
EXAMPLE = EXAMPLES["mash"]


@dataclass(frozen=True, slots=True)
class Mashing:
    """The rests of a mash, and what is said of the sparge."""

    rests: tuple[MashStep, ...]
    sparge: Sparge | None


@dataclass(frozen=True, slots=True)
class _Poured:
    """Water that is poured in, and how hot it is."""

    volume: Quantity | None
    heat: Quantity | None


def read_mash(nodes: Sequence[Node], desk: Desk, sparge: Sequence[Node] = ()) -> Mashing:
    """The lines of the mash, and those of a field about the sparge alone."""
    about = [_of_the_sparge(it) if isinstance(it, Text) else it for it in sparge]
    lines = [*step_lines(_with_its_thickness(nodes), "mash", desk), *step_lines(about, "mash", desk)]
    sparged = [it for it in lines if it.get("sparge")] or [it for it in lines if it.get("bag")]
    sparges = list(readable(sparged, _sparge))
    rests = [it for it in lines if not _is_of_sparge(it)]
    if len(rests) == 2 and rests[1].says == {"water", "temperature"}:  # "67 °C for an hour, with 12 L at 74 °C"
        rests.reverse()
    return Mashing(tuple(_rests(rests, desk)), _together(sparges, desk) if sparges else None)


def _with_its_thickness(nodes: Sequence[Node]) -> Sequence[Node]:
    """Lines of a mash with a thickness that has a line of its own ("2.7 L/kg") behind the first that says a time."""
    texts = [it for it in nodes if isinstance(it, Text)]
    alone = [it for it in texts if fits(THICKNESS, it.value)]
    timed = next((it for it in texts if re.search(MINUTES, it.value, re.IGNORECASE)), None)
    if len(alone) != 1 or timed is None:
        return nodes
    whole = Text(f"{timed.value}, {alone[0].value}", timed.place, exact=False)
    return [whole if it is timed else it for it in nodes if it is not alone[0]]


def _together(sparges: Sequence[Sparge], desk: Desk) -> Sparge:
    """Several sparges as one, with all their water, where each says how much it takes."""
    first, *others = sparges
    volumes = [it.water for it in sparges if it.water is not None]
    if not others:
        return first
    way, heat = (
        next((it.way for it in sparges if it.way), ""),
        next((it.temperature for it in sparges if it.temperature), None),
    )
    note = "; ".join(it.note for it in sparges if it.note)
    if any(it.water is None and it.temperature is not None for it in sparges):
        what = "several sparges are reckoned as one, and its water is worked out: not each says how much it takes"
        desk.problems.warning(others[0].place, what, expected="how much water each takes")
        return replace(first, water=None, temperature=heat, way=way, note=note)
    if len(volumes) > 1:
        desk.problems.warning(others[0].place, "several sparges are reckoned as one", expected="one line")
    water = sum_of(volumes, "sparge water, as the recipe says") if volumes else None
    return replace(first, water=water, temperature=heat, way=way, note=note)


def _of_the_sparge(text: Text) -> Text:
    """A line of the field of the sparge, which need not say so again: "12 L at 77 °C", or none."""
    if re.search("sparg", text.value, re.IGNORECASE):
        return text
    return Text("no sparge" if text.word in ("no", "none") else f"sparge {text.value}", text.place, exact=False)


def _rests(lines: Sequence[Line], desk: Desk) -> list[MashStep]:
    """The rests, in order; a line of the strike, or of doughing in and no more, is about the one after it."""
    strike: Line | None = None
    doughed: Line | None = None
    rests: list[MashStep] = []
    for line in lines:
        said_of = line.says - {"sparge", "bag"}
        with suppress(Unreadable):
            if said_of == {"strike"}:
                strike = line
            elif said_of == {"water", "temperature"} and not rests and line is not lines[-1]:
                strike = _as_strike(line)
            elif said_of and not line.get("time") and (rest := line.get("rest")) and fits(DOUGH_IN, rest.value):
                doughed, strike = line, line if line.get("strike") else strike
            elif said_of:
                if doughed and _stands_apart(doughed, line):
                    rests.append(_rest(doughed, strike, first=not rests))
                    strike = None
                begun, strike, doughed = strike, None, None
                rests.append(_rest(line, begun, first=not rests, alone=len(lines) == 1))
    left = doughed or strike
    if left is not None and not desk.problems.errors(left.place.path):
        left.error("no rest comes after it", f"something like {EXAMPLE}")
    return rests


def _as_strike(line: Line) -> Line:
    """A line of water and how hot it is, and of nothing else, before the first rest: "12 L at 72 °C"."""
    poured = Text(
        f"strike with {line.parts['water'].value} at {line.parts['temperature'].value}", line.place, exact=False
    )
    return replace(line, parts={"strike": poured})


def _stands_apart(doughed: Line, after: Line) -> bool:
    """Whether it is doughed in at a temperature of its own, and not that of the next rest."""
    heat, other = doughed.quantity("temperature"), after.quantity("temperature")
    return heat is not None and (other is None or heat.number != other.number)


def _rest(line: Line, struck: Line | None, *, first: bool, alone: bool = False) -> MashStep:
    """A rest of the mash; `Unreadable` where it cannot be read."""
    named = told.split(", ")[0] if (told := line.get("rest")) else None  # "mash in and rest"
    role: MashRole | None = meant(named, ((key, it.pattern) for key, it in RESTS.items())) if named else None
    role = role or _by_its_heat(line, first=first, alone=alone)
    usual = RESTS[role] if role else None
    strike = line if line.get("strike") else struck
    if strike is not None and not first:
        raise line.error("only the first rest is struck", "infusion 4 L at 95 °C for a later one")
    poured = _poured(strike, "strike", STRIKE) if strike else _poured(line, "infusion", ADDED)
    water = line.quantity("water") or poured.volume
    by_water = poured.heat is not None and not line.get("temperature") and (first or water is not None)
    heat = None if by_water else usual_in(line, "temperature", role, usual)
    minutes = usual_in(line, "time", role, usual)
    missing(line, {"temperature": by_water or heat or None, "time": minutes}, EXAMPLE)
    if minutes is None or (line.get("water") and water is None):
        raise Unreadable
    if line.get("infusion") and first:
        raise line.error("the first rest is struck", "strike at 74 °C", at=line.get("infusion"))
    if heat is not None and not 30 <= heat.number <= 88:
        as_it_stands = heat.number * 1.8 + 32
        meant_in_c = heat.text.endswith(("F", "f")) and 30 <= as_it_stands <= 88
        near = f"{as_it_stands:g} °C" if meant_in_c else ""
        expected = "" if near else "30 to 88 °C (86 to 190 °F)"
        raise line.error(f"a mash at {heat.text} does nothing", expected, at=heat, suggestion=near)
    if heat is not None and role is not None and usual is not None:
        within_span(line, heat, role, usual)
    way, thickness = line.get("way"), line.quantity("thickness")
    if thickness and water and first:
        line.warning(f"{thickness.text} is not reckoned: {water.text} of water counts", at=thickness)
        thickness = None
    elif line.get("thickness") and (thickness is None or not first):
        raise line.error("the water is told twice", "10 L, or 2.7 L/kg of the first rest") if thickness else Unreadable
    return MashStep(
        value_of(line, "temperature", heat, LABEL)
        if heat
        else by_default(MEANWHILE_C, "°C", LABEL, "until it is known"),
        value_of(line, "time", minutes, "time of the rest"),
        said(water, "mash water") if water else None,
        meant(way, WAYS.items()) if way else "infusion",
        line.place,
        role,
        said(poured.heat, "strike water" if strike else "water of the infusion") if poured.heat else None,
        by_water,
        thickness=said(thickness, "thickness of the mash") if thickness else None,
        note=line.note,
        unsaid=way is None and water is None and poured.heat is None and not first,
    )


def _by_its_heat(line: Line, *, first: bool, alone: bool) -> MashRole | None:
    """A temperature and no more: what nothing but the end of a mash has is that, and all of a mash its main rest."""
    heat = line.quantity("temperature") if line.says == {"temperature"} else None
    if heat is not None and alone and 60 <= heat.number <= 72:
        return MAIN
    return "mash out" if heat is not None and not first and heat.number >= MASH_OUT_C else None


def _poured(line: Line, key: str, pattern: str) -> _Poured:
    """What is said of water that is poured in."""
    pieces = (line.pieces(text, pattern, f.TEMPERATURE) if (text := line.get(key)) else None) or {}
    heat, volume = line.read(pieces.get("heat"), f.TEMPERATURE), line.read(pieces.get("volume"), f.VOLUME)
    if ("heat" in pieces and heat is None) or ("volume" in pieces and volume is None):
        raise Unreadable
    if heat is not None and not 20 <= heat.number <= 101:
        raise line.error(f"no mash is stirred with water at {heat.text}", "20 to 100 °C (68 to 212 °F)", at=heat)
    return _Poured(volume, heat)


def _is_of_sparge(line: Line) -> bool:
    """Whether a line is of the sparge alone: of no rest, or it begins with it."""
    return line.get("sparge") is not None and not (
        line.get("time") and (line.get("water") is None or fits(f"{SPARGE}.*", line.whole) is None)
    )


def _sparge(line: Line) -> Sparge:
    poured, text = _poured(line, "sparge", SPARGE), line.get("sparge")
    if _is_of_sparge(line):  # "rinse the grain with 4 L, 77 °C"
        poured = _Poured(poured.volume or line.quantity("water"), poured.heat or line.quantity("temperature"))
    if line.get("bag") and (text is None or text.word == "no sparge"):
        return Sparge(None, None, "no", line.place)
    pieces = (line.pieces(text, SPARGE, f.TEMPERATURE) if text else None) or {}
    way = pieces.get("way")

    def value(read: Quantity | None, label: str) -> Value | None:
        return said(read, label) if read else None

    return Sparge(
        value(poured.volume, "sparge water, as the recipe says"),
        value(poured.heat, "sparge water's temperature"),
        way.word if way else "",
        line.place,
        line.note,
    )
