"""A table under `brewhouses` to the model, with the defaults of a set that nobody described."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, cast

from gristbook.model.brewhouse import Brewhouse
from gristbook.pantry.doubts import usual
from gristbook.problems import Place, Problems
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Fields, Kind, field_called, read_fields, read_quantity
from gristbook.reading.lines import readable
from gristbook.reading.tree import Table, Text
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value, given
from gristbook.text.values import Desk, our_desk, said, unread
from gristbook.text.water import read_source

MASHES = ("sparge", "bag", "none")

LESSON = Kind("from batches, or nothing", choices=("from batches",))

BREWHOUSE: tuple[Field, ...] = (
    Field("batch", f.VOLUME, "Wort into the fermenter.", default="20 L"),
    Field(
        "efficiency",
        f.EFFICIENCY,
        "Mash efficiency of an ordinary grist, of 1.045 or as 74 % at 1.050; also from batches.",
        default="72 % ± 5",
        also="mash efficiency",
    ),
    Field(
        "conversion",
        f.EFFICIENCY,
        "Starch that the mash dissolves, where no efficiency tells it; also from batches.",
        default="95 % ± 4",
    ),
    Field("steep yield", f.EFFICIENCY, "What steeped grain gives of its potential.", default="60 %"),
    Field(
        "boil-off",
        f.BOIL_OFF,
        "Cold water that steams away in an hour; also from batches.",
        default="3 L/h",
        also="boil-off rate, evaporation, evaporation rate",
    ),
    Field(
        "left in kettle",
        f.LOSS,
        "Wort that stays in the kettle, its extract with it; also from batches.",
        default="1.5 L",
        also="trub loss, kettle loss, trub",
    ),
    Field(
        "left in fermenter",
        f.LOSS,
        "Beer that stays with the yeast; also from batches.",
        default="1 L",
        also="fermenter loss",
    ),
    Field("attenuation", LESSON, "How far each yeast goes here: as the pantry says, or from batches."),
    Field(
        "absorption",
        f.ABSORPTION,
        "Water that a kilogram of grain keeps; 0.7 L/kg from a drained bag.",
        also="grain absorption",
    ),
    Field(
        "thickness",
        f.THICKNESS,
        "Mash water for a kilogram of grain, in a sparged tun.",
        default="2.7 L/kg",
        also="mash thickness",
    ),
    Field("grain", f.TEMPERATURE, "The temperature of the grain.", default="20 °C", also="grain temperature"),
    Field("tun", f.VOLUME, "The mash tun, to the brim.", also="mash tun"),
    Field("tun heat", f.LOSS, "The tun's heat, as litres of water; nothing if it is warmed first.", default="0 L"),
    Field("kettle", f.VOLUME, "The kettle, to the brim.", also="pot, boil kettle"),
    Field("fermenter", f.VOLUME, "The fermenter, to the brim; a fifth of it is left to the foam.", also="fermentor"),
    Field("mash", Kind("sparge, bag or none", choices=MASHES), "How the wort leaves the grain.", default="sparge"),
    Field("altitude", f.ALTITUDE, "The height above the sea.", default="0 m", also="elevation"),
    Field("water", f.WORDS, "The water that runs there, by its name in the pantry."),
)

ABSORPTION = "water that the grain keeps, by weight"
ABSORBED = {"sparge": 1.0, "bag": 0.7, "none": 0.7}
"""Common practice, no source: litres that a kilogram of grain keeps in a tun, or in a bag that drains."""

KEPT = ("batch", "mash", "tun", "kettle", "fermenter")
"""What is as it is in a brewhouse; all else may be usual or not."""

USUAL_BATCH_L = 20.0
"""The batch that the defaults above are for."""

PRACTICE = "common practice, no source"
BY_DEFAULT = f"by default, {PRACTICE}"

USUAL: Mapping[str, str] = {
    "grain": "grain temperature",
    **{
        field: field
        for field in (
            *("efficiency", "conversion", "steep yield", "boil-off", "left in kettle", "left in fermenter"),
            *("absorption", "tun heat"),
        )
    },
}
"""How sure a field usually is, by the kind of its number; what is not here is a decision."""

LEARNT: Mapping[str, tuple[str, float]] = {
    "efficiency": ("conversion", 0.1),
    "conversion": ("conversion", 0.05),
    "boil-off": ("boil_off", 0.3),
    "left in kettle": ("left_in_kettle", 0.6),
    "left in fermenter": ("left_in_fermenter", 0.6),
}
"""Fields that batches can teach: their names in the model, and the share of it that a guess may be out without a ±."""

ORDINARY_WORDS = "gravity of an ordinary wort"
AT = re.compile(r"(?P<efficiency>.+?)\s+at\s+(?P<gravity>.+)", re.IGNORECASE)
ORDINARY = 1.045
"""The gravity of a brewhouse's ordinary wort (common practice, no source)."""

FROM_BATCHES = re.compile(r"from batches(?:\s*,\s*(?P<before>.+))?", re.IGNORECASE)


def read_brewhouse(name: Text, table: Table, desk: Desk) -> Brewhouse | None:
    """A brewhouse by its name; `None` with a problem filed where a figure cannot be read."""
    problems = desk.problems
    before = len(problems)
    table, at = _stated_at(table)
    fields = read_fields(table, BREWHOUSE, problems, "a brewhouse")
    mash = cast(Literal["sparge", "bag", "none"], fields.words("mash"))
    reader = _Reader(fields, f"the brewhouse {name.value}", problems)
    value, perhaps = reader.value, reader.perhaps
    by_conversion = not fields.given("efficiency") and (mash == "bag" or fields.given("conversion"))
    runs = fields.text("water")

    built = Brewhouse(
        name=name.value,
        batch=value("batch", "batch"),
        efficiency=None if by_conversion else value("efficiency", "mash efficiency"),
        ordinary_gravity=_ordinary(at, reader.origin, problems),
        conversion=value("conversion", "conversion"),
        steep_yield=value("steep yield", "yield of steeped grain"),
        boil_off=value("boil-off", "boil-off"),
        left_in_kettle=value("left in kettle", "wort left in the kettle"),
        left_in_fermenter=value("left in fermenter", "beer left in the fermenter"),
        absorption=perhaps("absorption", ABSORPTION) or _absorbed(mash),
        thickness=value("thickness", "thickness of the mash"),
        grain_temperature=value("grain", "temperature of the grain"),
        tun_heat=value("tun heat", "heat of the tun, as water"),
        tun=perhaps("tun", "mash tun, to the brim"),
        kettle=perhaps("kettle", "kettle, to the brim"),
        fermenter=perhaps("fermenter", "fermenter, to the brim"),
        altitude=value("altitude", "altitude"),
        mash=mash,
        water=next(readable([runs] if runs else [], lambda name: read_source(name, desk)), None),
        learns=reader.learns(),
    )
    if fields.given("batch"):
        built = built.grown(built.batch.number / USUAL_BATCH_L)
    for field, left in (("left in kettle", built.left_in_kettle), ("left in fermenter", built.left_in_fermenter)):
        text = fields.text(field)
        if text and len(problems) == before and left.number >= built.batch.number:
            problems.error(text.place, f"{field}: as much as the whole batch", expected="less")
    kept = tuple(it for it in table.entries if (row := field_called(BREWHOUSE, it[0].value)) and row.name in KEPT)
    if len(kept) < len(table.entries):
        built = replace(built, usual=read_brewhouse(name, replace(table, entries=kept), desk))
    return built if len(problems) == before else None


def default_brewhouse(name: str = "home") -> Brewhouse:
    """The set of a book that describes none: 20 L, a sparged tun."""
    place = Place("book.yaml")
    built = read_brewhouse(Text(name, place), Table((), place), our_desk())
    assert built is not None, "the defaults above can be read"
    return built


def _stated_at(table: Table) -> tuple[Table, Text | None]:
    """The table with nothing but a share as its efficiency, and the gravity that the author states it at."""
    entries, at = list(table.entries), None
    for index, (key, node) in enumerate(entries):
        field = field_called(BREWHOUSE, key.value)
        if field and field.name == "efficiency" and isinstance(node, Text) and (found := AT.fullmatch(node.value)):
            entries[index], at = (key, node.part(0, found.end("efficiency"))), node.part(found.start("gravity"))
    return replace(table, entries=tuple(entries)), at


def _ordinary(at: Text | None, origin: str, problems: Problems) -> Value:
    """The gravity of an ordinary wort."""
    read = read_quantity(at, f.GRAVITY, problems) if at else None
    if read is None:
        return given(ORDINARY, "SG", ORDINARY_WORDS, words=BY_DEFAULT, by=By.DEFAULT)
    return said(read, ORDINARY_WORDS, unit=read.base or "SG", origin=origin)


@dataclass(frozen=True, slots=True)
class _Reader:
    """A table of a brewhouse, and who says what stands in it."""

    fields: Fields
    origin: str
    problems: Problems

    def value(self, field: str, label: str) -> Value:
        """What the author says of a field, or else the default."""
        if taught := self.taught(field):
            return self._before(field, taught, label)
        read = self.fields.quantity(field)
        if read is None:
            return unread("")
        if not self.fields.given(field):
            return said(read, label, by=By.DEFAULT, origin=f"{BY_DEFAULT}; {self.origin}", usual=USUAL.get(field, ""))
        return said(read, label, origin=self.origin, usual=USUAL.get(field, ""))

    def perhaps(self, field: str, label: str) -> Value | None:
        """What the author says of a field that has no default."""
        return self.value(field, label) if self.fields.given(field) else None

    def learns(self) -> tuple[str, ...]:
        """What batches are to teach, by the model's names."""
        of_yeasts = ("attenuation",) if self.fields.words("attenuation") else ()
        return (*dict.fromkeys(name for field, (name, _) in LEARNT.items() if self.taught(field)), *of_yeasts)

    def taught(self, field: str) -> re.Match[str] | None:
        """Whether batches are to teach a field."""
        text = self.fields.text(field) if field in LEARNT else None
        return FROM_BATCHES.fullmatch(text.value) if text else None

    def _before(self, field: str, taught: re.Match[str], label: str) -> Value:
        """What was thought of a field before any batch: the author's guess, or the default; never without a spread."""
        row, text = next(row for row in BREWHOUSE if row.name == field), self.fields.text(field)
        assert text is not None, "it says that batches teach it"
        origin = f"{self.origin}, before its batches"
        if taught["before"]:
            guess = text.part(taught.start("before"))
        else:
            guess, origin = Text(row.default, text.place, exact=False), f"{BY_DEFAULT}; {origin}"
        read = read_quantity(guess, row.kind, self.problems, text.value)
        if read is None:
            return unread("")
        share = LEARNT[field][1]
        return _varying(said(read, label, origin=origin), share, f"a guess may be out by {share:.0%}: {PRACTICE}")


def _varying(value: Value, share: float, why: str) -> Value:
    """What has no ± of its own varies by a share of it, nine times in ten."""
    origin = value.origin
    assert isinstance(origin, Given), "it was read from a line"
    if origin.ends and any(origin.ends):
        return value
    ends = (-share * value.number, share * value.number)
    return replace(value, origin=replace(origin, words=f"{origin.words}; {why}", ends=ends))


def _absorbed(mash: str) -> Value:
    words, litres = f"by default for a {mash} mash: {PRACTICE}", ABSORBED[mash]
    return given(litres, "L/kg", ABSORPTION, words=words, by=By.DEFAULT, ends=usual("absorption").about(litres))
