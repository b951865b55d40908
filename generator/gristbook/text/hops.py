"""Lines of hops to the model."""

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
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import on_line
from gristbook.text.assumed import ALPHA, assumed_hop
from gristbook.text.parts.common import DEGREES
from gristbook.text.parts.hops import STAND, STORE
from gristbook.text.values import Desk, by_default, from_pantry, in_days, minutes_in_boil, said

USES = ("time", "first wort", "stand", "dry")
"""The properties that say when a hop goes in: a line has exactly one."""

ROOM_C = 20.0

PACKAGES = {"open": 1.0, "airtight": 0.75, "under vacuum": 0.5}
"""How many times as fast alpha acids go as in the open: after Garetz 1994, from memory."""

_HEAT = rf"[-\d.]+\s*(?:{DEGREES})?"
_STAND = (
    rf"(?P<minutes>.+?) (?:at (?P<held>.+)|from (?P<start>{_HEAT}) to (?P<end>.+)"
    rf"|cooling from (?P<hot>{_HEAT}) to (?P<cool>.+?)(?: in a room of (?P<room>.+))?)"
)
_STORE = rf"(?P<days>.+?) at (?P<heat>.+?)(?: (?P<kept>{'|'.join(PACKAGES)}))?"


def read_hop(node: Node, boil_min: float, desk: Desk) -> Hop:
    """A line under `hops`; `Unreadable` where it cannot be read. ``boil_min`` bounds its time."""
    line = desk.line(node, "hops")
    match = desk.pantry.hops.look_up(line.name.value)
    found = desk.only(line, match, "hop", ALPHA, assumed_hop)
    record, use = found.record, _use(line, boil_min)
    if use is None:
        raise Unreadable
    amount = _amount(line, record.name, use)
    alpha = line.quantity("alpha")
    if amount is None or (line.get("alpha") and alpha is None):
        raise Unreadable
    if alpha is None and not isinstance(use, BeforePackaging):
        line.warning(
            f"no alpha acids for {record.name}: {100 * record.alpha.typical:.1f} % is taken, which is typical",
            "the packet's own figure, as 4.5 % alpha",
        )
    if isinstance(amount, Wanted) and not _can_bring_it(use, alpha):
        what = "without time, or without alpha acids, no amount of hops brings bitterness"
        raise line.error(what)
    label = f"alpha acids of {record.name}"
    form = line.get("form")
    return Hop(
        name=record.name,
        amount=amount,
        alpha=said(alpha, label, usual="alpha") if alpha else from_pantry(record.alpha, label, usual="alpha"),
        alpha_assumed=alpha is None,
        crops=(record.alpha.low, record.alpha.high),
        store=_store(line.get("stored"), record, line),
        storage_index=_storage_index(line, record.name),
        whole=form is not None and form.word == "whole",
        use=use,
        aroma=record.aroma,
        place=line.place,
        brings=on_line(line, NOTHING, desk),
        called=found.called,
        assumed=found.assumed,
    )


def _can_bring_it(use: HopUse, alpha: Quantity | None) -> bool:
    boiled = isinstance(use, FirstWort) or (isinstance(use, BeforeTheEnd | Stand) and use.minutes.number > 0)
    return boiled and (alpha is None or alpha.number > 0)


def _store(text: Text | None, record: records.Hop, line: Line) -> Store | None:
    """How the hops were kept; a variety that nobody has stored for science loses what most do."""
    said_of = line.pieces(text, _STORE, STORE) if text else None
    if said_of is None:
        return None
    days, heat = line.read(said_of["days"], f.DAYS), line.read(said_of["heat"], f.TEMPERATURE)
    if days is None or heat is None:
        return None
    return Store(
        in_days(days, f"time in store of {record.name}"),
        said(heat, f"temperature of the store of {record.name}"),
        lost_in_six_months(record),
        _package(said_of.get("kept")),
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


def _storage_index(line: Line, name: str) -> Value | None:
    """What a laboratory found; it knows of the store already, so that both would count the loss twice."""
    index = line.quantity("HSI")
    if index is not None and line.get("stored") is not None:
        what = "HSI tells what was lost in store already, so a line says one or the other"
        line.error(what, "HSI 0.35, or stored 30 weeks at 4 °C")
    return said(index, f"hop storage index of {name}", unit="ratio") if index else None


def lost_in_six_months(record: records.Hop) -> Value:
    """Share of the alpha acids gone after six months at 20 °C in the open."""
    label, keeps = f"alpha acids that {record.name} loses in six months", record.keeps
    if keeps is None:
        return by_default(0.4, "fraction", label, "most varieties lose 20 to 60 %; from memory", "lost in store")
    low, high = (keeps.low, keeps.high) if keeps.low < keeps.high else (keeps.typical - 0.1, keeps.typical + 0.1)
    return from_pantry(replace(keeps, typical=1 - keeps.typical, low=1 - high, high=1 - low), label)


def _amount(line: Line, name: str, use: HopUse) -> Weight | Wanted | None:
    """The weight or the bitterness to reach; `None` with a problem filed where there is neither."""
    amount = line.amount
    if amount is None:
        line.error(f"no amount of {line.name.value}", "an amount, as 28 g")
    elif amount.base == "kg":
        return Weight(said(amount, f"weight of {name}", unit="g", factor=1000.0))
    elif amount.base == "IBU" and amount.number > f.BITTERNESS.most:
        line.error(f'"{amount.text}" is too much', f.BITTERNESS.words, at=amount)
    elif amount.base == "IBU" and not isinstance(use, BeforePackaging):
        return Wanted(said(amount, f"bitterness wanted of {name}"))
    elif amount.base == "IBU":
        line.error("dry hops bring no bitterness", "a weight", at=amount)
    else:
        line.error(f'"{amount.text}" is not a weight', "a weight, as 28 g, or 22 IBU", at=amount)
    return None


def _use(line: Line, boil_min: float) -> HopUse | None:
    said_uses = [key for key in USES if line.get(key)]
    if len(said_uses) != 1:
        what = "says no time" if not said_uses else f"says {' and '.join(said_uses)}"
        line.error(f"this hop {what}", "one of 60 min, first wort, stand 20 min at 80 °C, dry 3 days")
        return None
    if line.get("first wort"):
        return FirstWort()
    if stand := line.get("stand"):
        return _stand(stand, line)
    if line.get("dry"):
        days = line.quantity("dry")
        return BeforePackaging(in_days(days, "dry-hop contact")) if days else None
    minutes = minutes_in_boil(line, boil_min)
    return BeforeTheEnd(said(minutes, "time in the boil")) if minutes else None


def _stand(text: Text, line: Line) -> Stand | None:
    said_of = line.pieces(text, _STAND, STAND)
    if said_of is None:
        return None
    minutes = line.read(said_of["minutes"], f.TIME)
    heat = _from_to(said_of, line)
    room = line.read(said_of.get("room"), f.TEMPERATURE)
    if minutes is None or heat is None or ("room" in said_of and room is None):
        return None
    heated = "temperature of the stand"
    stand = Stand(
        said(minutes, "time of the stand", usual="stand time"),
        start=said(heat[0], heated, usual="stand temperature"),
        end=said(heat[1], "temperature at the end of the stand", usual="stand temperature", doubt=heated),
    )
    return _left_to_cool(stand, room, text, line) if "hot" in said_of else stand


def _from_to(said_of: Mapping[str, Text], line: Line) -> tuple[Quantity, Quantity] | None:
    """The temperature at the start and at the end of a stand, the same where it is held."""
    start, end = said_of.get("start") or said_of.get("hot"), said_of.get("end") or said_of.get("cool")
    if start is None or end is None:
        held = line.read(said_of["held"], f.TEMPERATURE)
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
