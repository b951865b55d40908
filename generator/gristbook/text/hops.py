"""Lines of hops to the model."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from gristbook.model.amount import Wanted, Weight
from gristbook.model.brings import NOTHING
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, HopUse, Stand
from gristbook.model.recipe import Hop, Store
from gristbook.pantry import records
from gristbook.reading import fields as f
from gristbook.reading.lines import Line
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, between, given
from gristbook.text.allergens import on_line
from gristbook.text.values import Desk, by_default, from_pantry, said
from gristbook.text.vocabulary import DEGREES, HOP, HSI, STAND, STORE

USES = ("time", "first wort", "stand", "dry")
"""The properties that say when a hop goes in: a line has exactly one."""

ROOM_C = 20.0

PACKAGES = {"open": 1.0, "airtight": 0.75, "under vacuum": 0.5}
"""How many times as fast alpha acids go as in the open: after Garetz 1994, from memory."""

_HEAT = rf"[-\d.]+\s*(?:{DEGREES})?"
_STAND = re.compile(
    rf"(?P<minutes>.+?)\s+(?:at\s+(?P<held>.+)|from\s+(?P<start>{_HEAT})\s+to\s+(?P<end>.+)"
    rf"|cooling\s+from\s+(?P<hot>{_HEAT})\s+to\s+(?P<cool>.+?)(?:\s+in\s+a\s+room\s+of\s+(?P<room>.+))?)",
    re.IGNORECASE,
)
_KEPT = "|".join(PACKAGES).replace(" ", r"\s+")
_STORE = re.compile(rf"(?P<days>.+?)\s+at\s+(?P<heat>.+?)(?:\s+(?P<kept>{_KEPT}))?", re.IGNORECASE)


def read_hop(node: Node, boil_min: float, desk: Desk) -> Hop | None:
    """A line under `hops`; `None` with a problem filed where it cannot be read. ``boil_min`` bounds its time."""
    line = desk.ingredient(node, HOP)
    if line is None:
        return None
    record = _variety(line, desk)
    use = _use(line, boil_min, desk)
    if record is None or use is None:
        return None
    amount = _amount(line, record.name, use, desk)
    alpha = desk.quantity(line.get("alpha"), f.ALPHA, line.whole)
    if amount is None or (line.get("alpha") and alpha is None):
        return None
    if alpha is None and not isinstance(use, BeforePackaging):
        desk.problems.warning(
            line.place,
            f"no alpha acids for {record.name}: {100 * record.alpha.typical:.1f} % is taken, which is typical",
            within=line.whole,
            expected="the packet's own figure, as 4.5 % alpha",
        )
    if isinstance(amount, Wanted) and not _can_bring_it(use, alpha):
        what = "without time, or without alpha acids, no amount of hops brings bitterness"
        desk.problems.error(line.place, what, within=line.whole)
        return None
    label = f"alpha acids of {record.name}"
    form = line.get("form")
    return Hop(
        name=record.name,
        amount=amount,
        alpha=said(alpha, label) if alpha else from_pantry(record.alpha, label),
        alpha_assumed=alpha is None,
        crops=(record.alpha.low, record.alpha.high),
        store=_store(line.get("stored"), record, line, desk),
        storage_index=_storage_index(line, record.name, desk),
        whole=form is not None and form.word == "whole",
        use=use,
        aroma=record.aroma,
        place=line.place,
        brings=on_line(line, NOTHING, desk),
    )


def _variety(line: Line, desk: Desk) -> records.Hop | None:
    """The one hop that the line's name fits; several or none is a problem."""
    match = desk.pantry.hop(line.name.value)
    if not match.found:
        expected = "a hop of the pantry, or of the book's own"
        desk.unknown(line.name, "hop", "hops", line.whole, match.nearest, expected)
    elif match.only is None:
        several = " or ".join(found.name for found in match.found)
        what = f'"{line.name.value}" may be several'
        desk.problems.error(line.name.place, what, within=line.whole, expected=several)
    return match.only


def _can_bring_it(use: HopUse, alpha: Quantity | None) -> bool:
    boiled = isinstance(use, FirstWort) or (isinstance(use, BeforeTheEnd | Stand) and use.minutes.number > 0)
    return boiled and (alpha is None or alpha.number > 0)


def _store(text: Text | None, record: records.Hop, line: Line, desk: Desk) -> Store | None:
    """How the hops were kept; a variety that nobody has stored for science loses what most do."""
    if text is None:
        return None
    match = _STORE.fullmatch(text.value)
    if not match:
        desk.problems.error(text.place, f'"{text.value}" is not a store', within=line.whole, expected=STORE.words)
        return None
    days = desk.quantity(text.part(match.start("days"), match.end("days")), f.DAYS, line.whole)
    heat = desk.quantity(text.part(match.start("heat"), match.end("heat")), f.TEMPERATURE, line.whole)
    if days is None or heat is None:
        return None
    return Store(
        said(days, f"time in store of {record.name}", unit="d", factor=1 / 1440),
        said(heat, f"temperature of the store of {record.name}"),
        lost_in_six_months(record),
        _package(text.part(match.start("kept"), match.end("kept")) if match["kept"] else None),
    )


def _package(kept: Text | None) -> Value | None:
    if kept is None:
        return None
    origin = f"{kept.word}, after Garetz 1994"
    return given(
        PACKAGES[kept.word],
        "ratio",
        f"hops kept {kept.word}",
        words=origin,
        by=By.AUTHOR,
        written=kept.value,
        place=kept.place,
    )


def _storage_index(line: Line, name: str, desk: Desk) -> Value | None:
    """What a laboratory found; it knows of the store already, so that both would count the loss twice."""
    index = desk.quantity(line.get("HSI"), HSI, line.whole)
    if index is not None and line.get("stored") is not None:
        what = "HSI tells what was lost in store already, so a line says one or the other"
        desk.problems.error(line.place, what, within=line.whole, expected="HSI 0.35, or stored 30 weeks at 4 °C")
    return said(index, f"hop storage index of {name}", unit="ratio") if index else None


def lost_in_six_months(record: records.Hop) -> Value:
    """Share of the alpha acids gone after six months at 20 °C in the open."""
    label, keeps = f"alpha acids that {record.name} loses in six months", record.keeps
    if keeps is None:
        return by_default(0.4, "fraction", label, "most varieties lose 20 to 60 %; from memory")
    origin, sd = f"the pantry: {keeps.source}", between(keeps.low, keeps.high)
    return given(1 - keeps.typical, "fraction", label, words=origin, by=By.PANTRY, place=keeps.place, sd=sd)


def _amount(line: Line, name: str, use: HopUse, desk: Desk) -> Weight | Wanted | None:
    """The weight or the bitterness to reach; `None` with a problem filed where there is neither."""
    amount = line.amount
    if amount is None:
        desk.problems.error(
            line.place, f"no amount of {line.name.value}", within=line.whole, expected="an amount, as 28 g"
        )
    elif amount.base == "kg":
        return Weight(said(amount, f"weight of {name}", unit="g", factor=1000.0))
    elif amount.base == "IBU" and amount.number > f.BITTERNESS.most:
        desk.problems.error(
            amount.place, f'"{amount.text}" is too much', within=line.whole, expected=f.BITTERNESS.words
        )
    elif amount.base == "IBU" and not isinstance(use, BeforePackaging):
        return Wanted(said(amount, f"bitterness wanted of {name}"))
    elif amount.base == "IBU":
        desk.problems.error(amount.place, "dry hops bring no bitterness", within=line.whole, expected="a weight")
    else:
        desk.problems.error(
            amount.place, f'"{amount.text}" is not a weight', within=line.whole, expected="a weight, as 28 g, or 22 IBU"
        )
    return None


def _use(line: Line, boil_min: float, desk: Desk) -> HopUse | None:
    said_uses = [key for key in USES if line.get(key)]
    if len(said_uses) != 1:
        what = "says no time" if not said_uses else f"says {' and '.join(said_uses)}"
        desk.problems.error(
            line.place,
            f"this hop {what}",
            within=line.whole,
            expected="one of 60 min, first wort, stand 20 min at 80 °C, dry 3 days",
        )
        return None
    key = said_uses[0]
    text = line.get(key)
    if key == "first wort" or text is None:
        return FirstWort()
    if key == "stand":
        return _stand(text, line, desk)
    if key == "dry":
        days = desk.quantity(text, f.DAYS, line.whole)
        return BeforePackaging(said(days, "dry-hop contact", unit="d", factor=1 / 1440)) if days else None
    minutes = desk.minutes_in_boil(text, boil_min, line.whole)
    return BeforeTheEnd(said(minutes, "time in the boil")) if minutes else None


def _stand(text: Text, line: Line, desk: Desk) -> Stand | None:
    match = _STAND.fullmatch(text.value)
    if not match:
        desk.problems.error(text.place, f'"{text.value}" is not a stand', within=line.whole, expected=STAND.words)
        return None
    said_of = {name: text.part(match.start(name), match.end(name)) for name, part in match.groupdict().items() if part}
    minutes = desk.quantity(said_of["minutes"], f.TIME, line.whole)
    heat = _from_to(said_of, line, desk)
    room = _degrees(said_of.get("room"), line, desk)
    if minutes is None or heat is None or ("room" in said_of and room is None):
        return None
    stand = Stand(
        said(minutes, "time of the stand"),
        start=said(heat[0], "temperature of the stand"),
        end=said(heat[1], "temperature at the end of the stand"),
    )
    return _left_to_cool(stand, room, text, line, desk) if "hot" in said_of else stand


def _from_to(said_of: Mapping[str, Text], line: Line, desk: Desk) -> tuple[Quantity, Quantity] | None:
    """The temperature at the start and at the end of a stand, the same where it is held."""
    start, end = said_of.get("start") or said_of.get("hot"), said_of.get("end") or said_of.get("cool")
    if start is None or end is None:
        held = _degrees(said_of["held"], line, desk)
        return None if held is None else (held, held)
    if start.value.replace(".", "").isdigit():  # "from 95 to 75 °C": the unit is said once
        scale = re.sub(r"^[-\d.\s]+", "", end.value)
        start = Text(f"{start.value} {scale}".strip(), start.place, exact=False)
    ended = _degrees(end, line, desk)
    began = _degrees(start, line, desk) if ended else None
    return None if began is None or ended is None else (began, ended)


def _left_to_cool(stand: Stand, room: Quantity | None, text: Text, line: Line, desk: Desk) -> Stand | None:
    """A stand that cools by itself, which it cannot do in no time, nor to below the air of the room."""
    label = "temperature of the room"
    air = said(room, label) if room else by_default(ROOM_C, "°C", label, "a room, where nothing is said")
    start, end, minutes = stand.start.number, stand.end.number, stand.minutes.number
    if minutes > 0 and start > end > air.number:
        return replace(stand, air=air)
    what = (
        f"wort does not cool by itself from {start:g} to {end:g} °C in {minutes:g} min and a room of {air.number:g} °C"
    )
    desk.problems.error(text.place, what, within=line.whole, expected=STAND.words)
    return None


def _degrees(text: Text | None, line: Line, desk: Desk) -> Quantity | None:
    return desk.quantity(text, f.TEMPERATURE, line.whole)
