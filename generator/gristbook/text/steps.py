"""Lines of mash, ferment and carbonation to the model."""

from typing import Literal, cast

from gristbook.model.recipe import Carbonation, FermentStep, MashStep
from gristbook.reading.lines import Line
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node
from gristbook.text.priming import read_priming_sugar
from gristbook.text.values import Desk, in_days, said


def read_mash_step(node: Node, desk: Desk) -> MashStep:
    """A rest of the mash; `Unreadable` where it cannot be read."""
    line = desk.line(node, "mash")
    _must_have(line, "temperature", "time", "67 °C, 60 min")
    heat, minutes, water = (line.quantity(key) for key in ("temperature", "time", "water"))
    if heat is None or minutes is None or (line.get("water") and water is None):
        raise Unreadable
    if not 30 <= heat.number <= 80:
        raise line.error(f"a mash at {heat.text} does nothing", "30 to 80 °C (86 to 176 °F)", at=heat)
    way = line.get("way")
    return MashStep(
        temperature=said(heat, "mash temperature"),
        minutes=said(minutes, "time of the rest"),
        water=said(water, "mash water") if water else None,
        way=cast(Literal["infusion", "decoction", "heat"], way.word if way else "infusion"),
        place=line.place,
    )


def read_ferment_step(node: Node, desk: Desk) -> FermentStep:
    """A temperature held for some days; `Unreadable` where it cannot be read."""
    line = desk.line(node, "ferment")
    _must_have(line, "temperature", "time", "19 °C, 10 days")
    heat, days = line.quantity("temperature"), line.quantity("time")
    if heat is None or days is None:
        raise Unreadable
    if not -5 <= heat.number <= 45:
        raise line.error(f"no beer ferments at {heat.text}", "-5 to 45 °C (23 to 113 °F)", at=heat)
    return FermentStep(said(heat, "fermentation temperature"), in_days(days, "days"), line.place)


def read_carbonation(node: Node, desk: Desk) -> Carbonation:
    """The gas and how it comes there; `Unreadable` where it cannot be read."""
    line = desk.line(node, "carbonation")
    if not line.get("volumes"):
        raise line.error("no carbonation", "2.2 volumes, primed with table sugar")
    volumes = line.quantity("volumes")
    named = line.get("sugar")
    if named and line.get("keg"):
        raise line.error("both a keg and a priming sugar", at=named)
    sugar = read_priming_sugar(named, line, desk) if named else None
    if not line.get("keg") and not named:
        raise line.error("nothing says where the gas comes from", "primed with table sugar, or keg")
    if volumes is None:
        raise Unreadable
    return Carbonation(said(volumes, "carbonation"), sugar, line.place)


def _must_have(line: Line, first: str, second: str, example: str) -> None:
    missing = [key for key in (first, second) if not line.get(key)]
    if missing:
        raise line.error(f"no {' and no '.join(missing)}", f"something like {example}")
