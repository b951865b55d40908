"""Lines of mash, ferment and carbonation to the model."""

from __future__ import annotations

from typing import Literal, cast

from gristbook.model.recipe import Carbonation, FermentStep, MashStep
from gristbook.reading import fields as f
from gristbook.reading.lines import Line, read_line
from gristbook.reading.tree import Node
from gristbook.text.priming import read_priming_sugar
from gristbook.text.values import Desk, said
from gristbook.text.vocabulary import CARBONATION, FERMENT, MASH


def read_mash_step(node: Node, desk: Desk) -> MashStep | None:
    """A rest of the mash; `None` with a problem filed where it cannot be read."""
    line = read_line(node, MASH, desk.problems, named=False)
    if line is None or not _has(line, "temperature", "time", "67 °C, 60 min", desk):
        return None
    heat = desk.quantity(line.get("temperature"), f.TEMPERATURE, line.whole)
    minutes = desk.quantity(line.get("time"), f.TIME, line.whole)
    water = desk.quantity(line.get("water"), f.VOLUME, line.whole)
    if heat is None or minutes is None or (line.get("water") and water is None):
        return None
    if not 30 <= heat.number <= 80:
        desk.problems.error(
            heat.place, f"a mash at {heat.text} does nothing", within=line.whole, expected="30 to 80 °C (86 to 176 °F)"
        )
        return None
    way = line.get("way")
    return MashStep(
        temperature=said(heat, "mash temperature"),
        minutes=said(minutes, "time of the rest"),
        water=said(water, "mash water") if water else None,
        way=cast(Literal["infusion", "decoction", "heat"], way.word if way else "infusion"),
        place=line.place,
    )


def read_ferment_step(node: Node, desk: Desk) -> FermentStep | None:
    """A temperature held for some days; `None` with a problem filed where it cannot be read."""
    line = read_line(node, FERMENT, desk.problems, named=False)
    if line is None or not _has(line, "temperature", "time", "19 °C, 10 days", desk):
        return None
    heat = desk.quantity(line.get("temperature"), f.TEMPERATURE, line.whole)
    days = desk.quantity(line.get("time"), f.DAYS, line.whole)
    if heat is None or days is None:
        return None
    if not -5 <= heat.number <= 45:
        desk.problems.error(
            heat.place, f"no beer ferments at {heat.text}", within=line.whole, expected="-5 to 45 °C (23 to 113 °F)"
        )
        return None
    return FermentStep(
        said(heat, "fermentation temperature"), said(days, "days", unit="d", factor=1 / 1440), line.place
    )


def read_carbonation(node: Node, desk: Desk) -> Carbonation | None:
    """The gas and how it comes there; `None` with a problem filed where it cannot be read."""
    line = read_line(node, CARBONATION, desk.problems, named=False)
    if line is None:
        return None
    if not line.get("volumes"):
        desk.problems.error(
            line.place, "no carbonation", within=line.whole, expected="2.2 volumes, primed with table sugar"
        )
        return None
    volumes = desk.quantity(line.get("volumes"), f.VOLUMES, line.whole)
    named = line.get("sugar")
    if named and line.get("keg"):
        desk.problems.error(named.place, "both a keg and a priming sugar", within=line.whole)
        return None
    sugar = read_priming_sugar(named, line.whole, desk) if named else None
    if not line.get("keg") and not named:
        desk.problems.error(
            line.place,
            "nothing says where the gas comes from",
            within=line.whole,
            expected="primed with table sugar, or keg",
        )
        return None
    if volumes is None or (named and sugar is None):
        return None
    return Carbonation(said(volumes, "carbonation"), sugar, line.place)


def _has(line: Line, first: str, second: str, example: str, desk: Desk) -> bool:
    missing = [key for key in (first, second) if not line.get(key)]
    if missing:
        desk.problems.error(
            line.place, f"no {' and no '.join(missing)}", within=line.whole, expected=f"something like {example}"
        )
    return not missing
