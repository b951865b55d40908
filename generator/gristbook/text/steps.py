"""Lines of mash, ferment, carbonation and whatever else goes in, to the model."""

from __future__ import annotations

from typing import Literal, cast

from gristbook.model.recipe import Carbonation, Extra, FermentStep, MashStep
from gristbook.reading import fields as f
from gristbook.reading.lines import Line, read_line
from gristbook.reading.tree import Node, Text
from gristbook.text.values import Desk, said
from gristbook.text.vocabulary import CARBONATION, EXTRA, FERMENT, MASH

PRIMING_SUGARS = {
    "Sucrose": "sucrose",
    "Glucose monohydrate": "glucose monohydrate",
    "Glucose anhydrous": "glucose",
    "Dried malt extract, light": "dried malt extract",
}
"""Sugars of the pantry that ferment wholly and by a known formula, and malt extract, to prime bottles with."""


COUNTED = ("kg", "L", "packs", "pieces", "")
"""What an amount of a fining or a spice may be kept in; a bare number counts pieces."""


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
        way=cast(Literal["infusion", "decoction", "heat"], way.value.casefold() if way else "infusion"),
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
    sugar = _priming_sugar(named, line, desk) if named else None
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


def read_extra(node: Node, boil_min: float, desk: Desk) -> Extra | None:
    """A fining, a spice; a name that the pantry does not know is taken as it stands."""
    line = desk.ingredient(node, EXTRA)
    if line is None or not _one_moment(line, boil_min, desk):
        return None
    found = desk.pantry.fining(line.name.value).found
    record = found[0] if len(found) == 1 else None
    amount = line.amount
    if amount and amount.base not in COUNTED:
        desk.problems.error(
            amount.place, f'"{amount.text}" is not an amount', within=line.whole, expected="an amount, as 5 g"
        )
        return None
    return Extra(
        name=record.name if record else line.name.value,
        amount=said(amount, f"amount of {line.name.value}", unit=amount.base or "pieces") if amount else None,
        written=amount.text if amount else "",
        moment=_moment_of(line),
        purpose=record.purpose if record else "",
        allergen=record.allergen if record else "",
        place=line.place,
    )


def _one_moment(line: Line, boil_min: float, desk: Desk) -> bool:
    """Whether a line says at most once when a thing goes in, and a time that there is."""
    moments = [key for key in ("time", "days", "moment") if line.get(key)]
    if len(moments) > 1:
        desk.problems.error(
            line.place, f"this says {' and '.join(moments)}", within=line.whole, expected="one moment, or a line each"
        )
        return False
    minutes = desk.minutes_in_boil(line.get("time"), boil_min, line.whole)
    days = desk.quantity(line.get("days"), f.DAYS, line.whole)
    return bool(minutes or not line.get("time")) and bool(days or not line.get("days"))


def _moment_of(line: Line) -> str:
    """When it goes in, in words; "" where the line does not say."""
    if time := line.get("time"):
        return f"{time.value} before the end of the boil"
    if days := line.get("days"):
        return f"{days.value} before packaging"
    moment = line.get("moment")
    return moment.value if moment else ""


def _has(line: Line, first: str, second: str, example: str, desk: Desk) -> bool:
    missing = [key for key in (first, second) if not line.get(key)]
    if missing:
        desk.problems.error(
            line.place, f"no {' and no '.join(missing)}", within=line.whole, expected=f"something like {example}"
        )
    return not missing


def _priming_sugar(named: Text, line: Line, desk: Desk) -> str | None:
    match = desk.pantry.sugar(named.value)
    record = match.only
    extracts = desk.pantry.extract(named.value).found
    if extracts and all(extract.kind == "dried" for extract in extracts):
        return PRIMING_SUGARS["Dried malt extract, light"]
    sugar = PRIMING_SUGARS.get(record.name) if record else None
    if sugar is None:
        desk.problems.error(
            named.place,
            f'nobody can say how much gas "{named.value}" gives',
            within=line.whole,
            expected="table sugar, corn sugar, glucose anhydrous or dried malt extract",
            suggestion="" if record else match.nearest,
        )
    return sugar
