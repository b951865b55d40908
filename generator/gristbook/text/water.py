"""The water of a brewhouse, and lines of a recipe's `water`, to the model."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from gristbook.model.water import AcidUse, Dilution, Into, SaltUse, Treatment, WaterSource
from gristbook.pantry import records
from gristbook.pantry.lookup import Match
from gristbook.pantry.records import Spread
from gristbook.problems import Place, nearest
from gristbook.reading.lines import Line, meant
from gristbook.reading.tree import Node, Text
from gristbook.sheet.value import Value
from gristbook.text.allergens import brings_of
from gristbook.text.belonging import elsewhere
from gristbook.text.values import Desk, from_pantry, said
from gristbook.text.vocabulary import INTO, WATER
from gristbook.text.weighed import in_metric

R = TypeVar("R", bound=records.Record)
Found = WaterSource | Dilution | SaltUse | AcidUse


def read_treatment(nodes: tuple[Node, ...], desk: Desk) -> Treatment:
    """Every line of the section that can be read; the others have filed their problems."""
    found = [use for node in nodes if (use := _read_line(node, desk)) is not None]
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


def read_source(name: Text, desk: Desk) -> WaterSource | None:
    """The water that a name means; `None` with a problem filed where it is none or may be several."""
    line = Line(name.value, name.place, None, name, {})
    record = _only(line, desk.pantry.water(name.value), desk)
    return _source(record, name.place) if record is not None else None


def _read_line(node: Node, desk: Desk) -> Found | None:
    line = desk.ingredient(node, WATER, joins_name=True)
    if line is None:
        return None
    if strength := line.get("strength"):  # "lactic acid, 88 %": the strength is a part of the name
        whole = Text(f"{line.name.value} {strength.value}", line.name.place, exact=False)
        line = Line(line.whole, line.place, line.amount, whole, line.parts)
    return _Line(line, desk).read()


@dataclass(frozen=True, slots=True)
class _Line:
    """A line and what its name may mean on each shelf."""

    line: Line
    desk: Desk

    def read(self) -> Found | None:
        """Read the line as a salt, an acid or a water, by what its name is."""
        name, pantry = self.line.name.value, self.desk.pantry
        salts, acids, waters = pantry.salt(name), pantry.acid(name), pantry.water(name)
        if salts.found:
            return self._salt(salts)
        if acids.found:
            return self._acid(acids)
        if waters.found:
            return self._water(waters)
        if found := elsewhere(name, "water", self.desk.pantry):
            self._error(self.line.name, f'"{name}" is {found.one}', f"it under {found.section}")
            return None
        close = [match.nearest for match in (salts, acids, waters) if match.nearest]
        near = nearest(name, close) or next(iter(close), "")
        self._error(
            self.line.name,
            f'nothing for the water is called "{name}"',
            "" if near else "a water, a salt or an acid of the pantry",
            near,
        )
        return None

    def _salt(self, match: Match[records.Salt]) -> SaltUse | None:
        record, amount = match.found[0], self.line.amount
        if amount is None:
            self._needs("a weight, as 5 g")
            return None
        if amount.base != "kg":
            what = f'"{amount.text}" of a salt is a guess' if amount.base in ("L", "pieces") else f'"{amount.text}"'
            self._needs("its weight, as 5 g", what)
            return None
        if not in_metric(amount, "a salt", self.line, self.desk.problems):
            return None
        if len(match.found) > 1:
            self.desk.problems.warning(
                self.line.name.place,
                f'"{self.line.name.value}" may be several, which bring different amounts: {record.name} is taken',
                within=self.line.whole,
                expected=" or ".join(one.name for one in match.found),
            )
        into, written = self._moment()
        return SaltUse(
            name=record.name,
            formula=record.formula,
            mass=said(amount, f"weight of {record.name}", unit="g", factor=1000.0, metric=True),
            into=into,
            moment_written=written,
            purpose=record.purpose,
            place=self.line.place,
            brings=brings_of(record, self.desk.pantry),
        )

    def _acid(self, match: Match[records.Acid]) -> AcidUse | None:
        record, amount = _only(self.line, match, self.desk), self.line.amount
        if record is None:
            return None
        if amount is None or amount.base != "L":
            self._needs("a measure, as 4 mL", f'"{amount.text}" of an acid' if amount else "")
            return None
        if not in_metric(amount, "an acid", self.line, self.desk.problems):
            return None
        into, written = self._moment()
        return AcidUse(
            name=record.name,
            formula=record.formula,
            strength=from_pantry(record.strength, f"strength of {record.name}"),
            density=from_pantry(record.density, f"density of {record.name}", unit="g/mL", factor=0.001),
            volume=said(amount, f"measure of {record.name}", unit="mL", factor=1000.0, metric=True),
            into=into,
            moment_written=written,
            purpose=record.purpose,
            place=self.line.place,
        )

    def _water(self, match: Match[records.Water]) -> WaterSource | Dilution | None:
        record, amount = _only(self.line, match, self.desk), self.line.amount
        if record is None:
            return None
        if moment := self.line.get("moment"):
            self._error(moment, "one water is mixed for the whole brew", "no moment")
            return None
        source = _source(record, self.line.place)
        if amount is None:
            return source
        if amount.base == "L":
            return Dilution(source, said(amount, f"{record.name} in the mix"), None, self.line.place)
        if amount.base == "fraction" and amount.number <= 1:
            return Dilution(source, None, said(amount, f"share of {record.name}"), self.line.place)
        self._needs("a volume, as 10 L, or a share, as 50 %", f'"{amount.text}" of water')
        return None

    def _moment(self) -> tuple[Into, str]:
        text = self.line.get("moment")
        if text is None:
            return "water", ""
        return meant(text, INTO), text.value

    def _needs(self, expected: str, what: str = "") -> None:
        """File the problem of an amount that is missing, or of another kind."""
        place = self.line.amount.place if self.line.amount else self.line.place
        what = what or f"no amount of {self.line.name.value}"
        self.desk.problems.error(place, what, within=self.line.whole, expected=expected)

    def _error(self, text: Text, what: str, expected: str, suggestion: str = "") -> None:
        self.desk.problems.error(text.place, what, within=self.line.whole, expected=expected, suggestion=suggestion)


def _only(line: Line, match: Match[R], desk: Desk) -> R | None:
    """The one record that a name fits; several or none is a problem."""
    if match.only is None:
        several = " or ".join(record.name for record in match.found)
        desk.problems.error(
            line.name.place,
            f'"{line.name.value}" may be several' if several else f'unknown water "{line.name.value}"',
            within=line.whole,
            expected=several or ("" if match.nearest else "a water of the pantry, or a report in pantry/waters.yaml"),
            suggestion="" if several else match.nearest,
        )
    return match.only


def _source(record: records.Water, place: Place) -> WaterSource:
    def ion(spread: Spread, what: str, unit: str = "mg/L") -> Value:
        return from_pantry(spread, f"{what} in {record.name}", unit=unit, factor=1000.0)

    def perhaps(spread: Spread | None, what: str, unit: str = "mg/L") -> Value | None:
        return ion(spread, what, unit) if spread is not None else None

    capacity, as_itself = record.acid_capacity, record.chloramine_told_as == "NH2Cl"

    return WaterSource(
        name=record.name,
        calcium=ion(record.calcium, "calcium"),
        magnesium=ion(record.magnesium, "magnesium"),
        sodium=perhaps(record.sodium, "sodium"),
        bicarbonate=perhaps(record.bicarbonate, "bicarbonate"),
        alkalinity=perhaps(record.alkalinity, "alkalinity", "mg/L CaCO₃"),
        acid_capacity=from_pantry(capacity, f"acid capacity of {record.name}", unit="mEq/L") if capacity else None,
        sulfate=perhaps(record.sulfate, "sulfate"),
        chloride=perhaps(record.chloride, "chloride"),
        chlorine=perhaps(record.chlorine, "chlorine"),
        chloramine=perhaps(None if as_itself else record.chloramine, "chloramine as Cl₂"),
        monochloramine=perhaps(record.chloramine if as_itself else None, "chloramine as NH₂Cl"),
        place=place,
    )
