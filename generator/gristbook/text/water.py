"""The water of a brewhouse, and lines of a recipe's `water`, to the model."""

import re
from collections.abc import Sequence
from dataclasses import replace

from gristbook.model.amount import Share, Volume
from gristbook.model.water import AcidUse, Dilution, Into, SaltUse, Treatment, WaterSource
from gristbook.pantry import records
from gristbook.pantry.lookup import Match, nearest_of, typed
from gristbook.pantry.records import R, Spread
from gristbook.problems import Place, Problems
from gristbook.reading.line import Line
from gristbook.reading.lines import bare_line, meant, readable
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.value import Value
from gristbook.text.allergens import brings_of
from gristbook.text.parts.water import INTO, IONS, TAP
from gristbook.text.values import Desk, from_pantry, said
from gristbook.text.weighed import refuse_other_than_metric

GRAMS_IN_A_TABLET = 0.5
"""Of metabisulfite, in a tablet that is sold to brewers (common practice, no source: 0.44 to 0.6 g)."""

REPORT = "what its report says, as tap, Ca 60, Mg 8, Na 20, SO4 45, Cl 30, HCO3 140"

Found = WaterSource | Dilution | SaltUse | AcidUse


def read_treatment(nodes: Sequence[Node], at_home: WaterSource | None, desk: Desk) -> Treatment:
    """Every line of the section that can be read; ``at_home`` is what runs from the tap of the brewhouse, if known."""
    lines = [*readable(nodes, lambda node: desk.line(node, "water"))]
    found = [*readable(lines, lambda line: _read_line(line, at_home, desk))]
    sources = [use for use in found if isinstance(use, WaterSource)]
    for second in sources[1:]:
        desk.problems.error(
            second.place,
            f"{second.name} is a second water to begin with",
            expected="an amount of it, as 10 L or 50 %, if the two are mixed",
        )
    return Treatment(
        source=sources[0] if sources else None,
        dilutions=tuple(use for use in found if isinstance(use, Dilution)),
        salts=tuple(use for use in found if isinstance(use, SaltUse)),
        acids=tuple(use for use in found if isinstance(use, AcidUse)),
        note="; ".join(line.note for line in lines if line.note and line.amount is None),
    )


def read_source(name: Text, desk: Desk) -> WaterSource:
    """The water that a name means; `Unreadable` where it is none or may be several."""
    record = _only(bare_line(name, desk.problems), desk.pantry.waters.look_up(name.value))
    return _source(record, name.place)


def _read_line(line: Line, at_home: WaterSource | None, desk: Desk) -> Found | None:
    """A line as a salt, an acid or a water, by what its name is; `None` for the tap of the brewhouse."""
    if strength := line.get("strength"):  # "lactic acid, 88 %": the strength is a part of the name
        line = replace(line, name=Text(f"{line.name.value} {strength.value}", line.name.place, exact=False))
    if any(line.get(ion) for ion, *_ in IONS):
        return _by_report(line)
    if (wanted := line.get("pH")) is not None:
        line.warning(f'"{wanted.value}" is not reckoned: what a mash takes is among the figures', at=wanted)
        if line.amount is None:
            return None
    if fits(TAP, line.name.value) and line.amount is None:
        if at_home is None:
            what = "nobody knows what is in this tap water: nothing of it is reckoned"
            line.warning(what, REPORT)
        return None
    name, pantry = line.name.value, desk.pantry
    salts, acids, waters = pantry.salts.look_up(name), pantry.acids.look_up(name), pantry.waters.look_up(name)
    if salts.found:
        return _salt(line, salts, desk)
    if acids.found:
        return _acid(line, acids)
    if waters.found:
        return _water(line, waters)
    if re.search(r"\bpH\b", name, re.IGNORECASE):
        what = f'"{name}" is not reckoned: what brings the mash to a pH is among the figures'
        line.warning(what, "a measure of acid, as 4 mL lactic acid 80 %", at=line.name)
        return None
    poured = line.amount is None or (line.amount.base == "L" and fits(r".*water.*|(?:in )?(?:all|total)", name))
    near = nearest_of(name, (salts, acids, waters))
    if poured and not near and not desk.elsewhere(replace(line, problems=Problems()), "water"):
        line.warning(f'nobody knows what is in "{name}": nothing of it is reckoned', REPORT, at=line.name)
        return None
    what, expected = f'nothing for the water is called "{name}"', "a water, a salt or an acid of the pantry"
    raise desk.unknown(line, (salts, acids, waters), what, "water", expected)


def _by_report(line: Line) -> WaterSource:
    """A tap by its ions, in one line; without what makes it alkaline nothing of the mash could be reckoned."""
    name = "tap water" if line.name.word == "tap" else line.name.value
    read = {ion: line.quantity(ion) for ion, *_ in IONS}
    if any(read[ion] is None for ion, *_ in IONS if line.get(ion)):
        raise Unreadable
    missing = [ion for ion in ("calcium", "magnesium") if read[ion] is None]
    if (read["bicarbonate"] is None) == (read["alkalinity"] is None):
        missing.append("bicarbonate or alkalinity, one of them")
    if missing or line.amount is not None or line.get("moment"):
        what = f"a water report without {' and '.join(missing)}" if missing else "a water report of a part of the water"
        raise line.error(what, "tap, Ca 60, Mg 8, Na 20, SO4 45, Cl 30, HCO3 140")
    units = {"alkalinity": "mg/L CaCO₃"}
    told = {
        ion: said(it, f"{ion} in {name}", unit=units.get(ion, "mg/L"), usual="water report") if it else None
        for ion, it in read.items()
    }
    calcium, magnesium = told.pop("calcium"), told.pop("magnesium")
    assert calcium is not None
    assert magnesium is not None
    silent = dict.fromkeys(("acid_capacity", "chlorine", "chloramine", "monochloramine"))
    return WaterSource(name=name, calcium=calcium, magnesium=magnesium, **told, **silent, place=line.place)


def _tablets(line: Line, amount: Quantity, record: records.Salt) -> Value | None:
    """The weight of so many tablets of a sulfite, which are sold for this; of no other salt."""
    if amount.base not in ("pieces", "") or "S2O5" not in record.formula:
        return None
    grams = f"{GRAMS_IN_A_TABLET:g} g"
    line.warning(f"a tablet is taken as {grams}", "its weight, as its packet says", at=amount)
    origin = f"a tablet taken as {grams}, common practice, no source; the recipe"
    return said(amount, f"weight of {record.name}", unit="g", factor=GRAMS_IN_A_TABLET, origin=origin, metric=True)


def _salt(line: Line, match: Match[records.Salt], desk: Desk) -> SaltUse:
    record, amount = match.usual or match.found[0], line.amount
    if amount is None:
        raise line.error(f"no amount of {line.name.value}", "a weight, as 5 g")
    mass = _tablets(line, amount, record)
    if amount.base == "g/L":
        mass = said(amount, f"dose of {record.name}", metric=True)
    if mass is None and amount.base != "kg":
        what = f'"{amount.text}" of a salt is a guess' if amount.base in ("L", "pieces") else f'"{amount.text}"'
        raise line.error(what, "its weight, as 5 g", at=amount)
    if mass is None or amount.base == "g/L":
        refuse_other_than_metric(amount, "a salt", line)
    if match.usual or match.only is None:
        what = f'"{line.name.value}" may be several, which bring different amounts: {typed(record.name)} is taken'
        line.warning(what, match.names, at=line.name)
    into, written = _moment(line)
    return SaltUse(
        name=record.name,
        formula=record.formula,
        mass=mass or said(amount, f"weight of {record.name}", unit="g", factor=1000.0, metric=True),
        into=into,
        moment_written=written,
        purpose=record.purpose,
        place=line.place,
        brings=brings_of(record, desk.pantry),
        note=line.note,
    )


def _acid(line: Line, match: Match[records.Acid]) -> AcidUse:
    record, amount = _only(line, match), line.amount
    if amount is None or amount.base not in ("L", "mL/L"):
        what = f'"{amount.text}" of an acid' if amount else f"no amount of {line.name.value}"
        raise line.error(what, "a measure, as 4 mL", at=amount)
    refuse_other_than_metric(amount, "an acid", line)
    into, written = _moment(line)
    return AcidUse(
        name=record.name,
        formula=record.formula,
        strength=from_pantry(record.strength, f"strength of {record.name}"),
        density=from_pantry(record.density, f"density of {record.name}", unit="g/mL", factor=0.001),
        volume=said(amount, f"dose of {record.name}", metric=True)
        if amount.base == "mL/L"
        else said(amount, f"measure of {record.name}", unit="mL", factor=1000.0, metric=True),
        into=into,
        moment_written=written,
        purpose=record.purpose,
        place=line.place,
        note=line.note,
    )


def _water(line: Line, match: Match[records.Water]) -> WaterSource | Dilution:
    record, amount = _only(line, match), line.amount
    if moment := line.get("moment"):
        raise line.error("one water is mixed for the whole brew", "no moment", at=moment)
    source = _source(record, line.place)
    if amount is None:
        return source
    if amount.base == "L":
        return Dilution(source, Volume(said(amount, f"{record.name} in the mix")), line.place, line.note)
    if amount.base == "fraction" and amount.number <= 1:
        return Dilution(source, Share(said(amount, f"share of {record.name}")), line.place, line.note)
    raise line.error(f'"{amount.text}" of water', "a volume, as 10 L, or a share, as 50 %", at=amount)


def _moment(line: Line) -> tuple[Into, str]:
    text = line.get("moment")
    return (meant(text, INTO), text.value) if text else ("water", "")


def _only(line: Line, match: Match[R]) -> R:
    """The one record that a name fits; several or none is a problem."""
    name, several = line.name, match.names
    if match.only is not None:
        return match.only
    if several:
        raise line.error(f'"{name.value}" may be several', several, at=name)
    near = match.nearest
    expected = "" if near else "a water of the pantry, or a report in pantry/waters.yaml"
    raise line.error(f'unknown water "{name.value}"', expected, at=name, suggestion=near)


def _source(record: records.Water, place: Place) -> WaterSource:
    def ion(spread: Spread, what: str, unit: str = "mg/L") -> Value:
        return from_pantry(spread, f"{what} in {record.name}", unit=unit, factor=1000.0, usual="water report")

    def perhaps(spread: Spread | None, what: str, unit: str = "mg/L") -> Value | None:
        return ion(spread, what, unit) if spread is not None else None

    capacity, as_itself = record.acid_capacity, record.chloramine_told_as == "NH2Cl"
    ions = ("sodium", "bicarbonate", "sulfate", "chloride", "chlorine")
    return WaterSource(
        name=record.name,
        calcium=ion(record.calcium, "calcium"),
        magnesium=ion(record.magnesium, "magnesium"),
        **{what: perhaps(getattr(record, what), what) for what in ions},
        alkalinity=perhaps(record.alkalinity, "alkalinity", "mg/L CaCO₃"),
        acid_capacity=from_pantry(capacity, f"acid capacity of {record.name}", unit="mEq/L", usual="water report")
        if capacity
        else None,
        chloramine=perhaps(None if as_itself else record.chloramine, "chloramine as Cl₂"),
        monochloramine=perhaps(record.chloramine if as_itself else None, "chloramine as NH₂Cl"),
        place=place,
    )
