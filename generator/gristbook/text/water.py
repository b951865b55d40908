"""The water of a brewhouse, and lines of a recipe's `water`, to the model."""

from dataclasses import replace

from gristbook.model.amount import Share, Volume
from gristbook.model.water import AcidUse, Dilution, Into, SaltUse, Treatment, WaterSource
from gristbook.pantry import records
from gristbook.pantry.lookup import Match, typed
from gristbook.pantry.records import R, Spread
from gristbook.problems import Place
from gristbook.reading.lines import Line, bare_line, meant, readable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.value import Value
from gristbook.text.allergens import brings_of
from gristbook.text.parts.water import INTO
from gristbook.text.values import Desk, from_pantry, said
from gristbook.text.weighed import refuse_other_than_metric

Found = WaterSource | Dilution | SaltUse | AcidUse


def read_treatment(nodes: tuple[Node, ...], desk: Desk) -> Treatment:
    """Every line of the section that can be read; the others have filed their problems."""
    found = [*readable(nodes, lambda node: _read_line(node, desk))]
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
    )


def read_source(name: Text, desk: Desk) -> WaterSource:
    """The water that a name means; `Unreadable` where it is none or may be several."""
    record = _only(bare_line(name, desk.problems), desk.pantry.waters.look_up(name.value))
    return _source(record, name.place)


def _read_line(node: Node, desk: Desk) -> Found:
    """A line as a salt, an acid or a water, by what its name is."""
    line = desk.line(node, "water")
    if strength := line.get("strength"):  # "lactic acid, 88 %": the strength is a part of the name
        line = replace(line, name=Text(f"{line.name.value} {strength.value}", line.name.place, exact=False))
    name, pantry = line.name.value, desk.pantry
    salts, acids, waters = pantry.salts.look_up(name), pantry.acids.look_up(name), pantry.waters.look_up(name)
    if salts.found:
        return _salt(line, salts, desk)
    if acids.found:
        return _acid(line, acids)
    if waters.found:
        return _water(line, waters)
    what, expected = f'nothing for the water is called "{name}"', "a water, a salt or an acid of the pantry"
    raise desk.unknown(line, (salts, acids, waters), what, "water", expected)


def _salt(line: Line, match: Match[records.Salt], desk: Desk) -> SaltUse:
    record, amount = match.usual or match.found[0], line.amount
    if amount is None:
        raise line.error(f"no amount of {line.name.value}", "a weight, as 5 g")
    if amount.base != "kg":
        what = f'"{amount.text}" of a salt is a guess' if amount.base in ("L", "pieces") else f'"{amount.text}"'
        raise line.error(what, "its weight, as 5 g", at=amount)
    refuse_other_than_metric(amount, "a salt", line)
    if match.only is None:
        what = f'"{line.name.value}" may be several, which bring different amounts: {typed(record.name)} is taken'
        line.warning(what, match.names, at=line.name)
    into, written = _moment(line)
    return SaltUse(
        name=record.name,
        formula=record.formula,
        mass=said(amount, f"weight of {record.name}", unit="g", factor=1000.0, metric=True),
        into=into,
        moment_written=written,
        purpose=record.purpose,
        place=line.place,
        brings=brings_of(record, desk.pantry),
    )


def _acid(line: Line, match: Match[records.Acid]) -> AcidUse:
    record, amount = _only(line, match), line.amount
    if amount is None or amount.base != "L":
        what = f'"{amount.text}" of an acid' if amount else f"no amount of {line.name.value}"
        raise line.error(what, "a measure, as 4 mL", at=amount)
    refuse_other_than_metric(amount, "an acid", line)
    into, written = _moment(line)
    return AcidUse(
        name=record.name,
        formula=record.formula,
        strength=from_pantry(record.strength, f"strength of {record.name}"),
        density=from_pantry(record.density, f"density of {record.name}", unit="g/mL", factor=0.001),
        volume=said(amount, f"measure of {record.name}", unit="mL", factor=1000.0, metric=True),
        into=into,
        moment_written=written,
        purpose=record.purpose,
        place=line.place,
    )


def _water(line: Line, match: Match[records.Water]) -> WaterSource | Dilution:
    record, amount = _only(line, match), line.amount
    if moment := line.get("moment"):
        raise line.error("one water is mixed for the whole brew", "no moment", at=moment)
    source = _source(record, line.place)
    if amount is None:
        return source
    if amount.base == "L":
        return Dilution(source, Volume(said(amount, f"{record.name} in the mix")), line.place)
    if amount.base == "fraction" and amount.number <= 1:
        return Dilution(source, Share(said(amount, f"share of {record.name}")), line.place)
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
