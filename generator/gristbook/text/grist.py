"""Lines of malts, sugars and extracts to the model."""

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import replace

from gristbook.model.amount import Share, Weight
from gristbook.model.hop import HoppedKit
from gristbook.model.moment import BeforeTheEnd, Moment, Stage
from gristbook.model.recipe import HOPPED, Malt, Steep, Sugar
from gristbook.pantry import records
from gristbook.pantry.fields import CEREALS, DIASTATIC_POWER
from gristbook.pantry.lookup import Match, typed
from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.spread import read_spread
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.notes import measures
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, Unreadable
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import brings_of, on_line
from gristbook.text.assumed import DISSOLVES, UNSAID_KIT, assumed_extract, assumed_malt, assumed_sugar
from gristbook.text.assumed import MALT as MALT_NEEDS
from gristbook.text.brew import Brew
from gristbook.text.coloured import COLOURED, LIGHTEST_IN_EBC, in_lovibond
from gristbook.text.parts.grist import KIT, STEEP
from gristbook.text.values import Desk, Found, by_default, from_pantry, said

PURE = {"points·gal/lb": 46.2, "L°/kg": 386.0}
"""What pure sucrose gives, rounded up: nothing gives more (handbooks print 46 to 46.3, and 384 to 388)."""

_SAID_HOPPED = re.compile(r"\bhopped\b\s*", re.IGNORECASE)
USUAL = {"extract": "potential", "moisture": "moisture", "colour": "malt colour"}
"""How sure what a line says of its malt usually is."""
_OTHER_GRAINS = frozenset(CEREALS) - {"barley"} | {"oat"}
_LIKE = re.compile(r"[^\W\d].*?[ -](?:type|style)\s+(?=[^\W\d])", re.IGNORECASE)
"""Before what a thing is, whatever somebody calls it: "foamy-type dextrin malt"."""
STEEPED = "30 min at 68 °C"
"""Common practice, no source."""
STEEPS = (
    "(?P<minutes>.+?) at (?P<heat>.+)",
    "(?:at )?(?P<heat>.+?),? for (?P<minutes>.+)",
    rf"(?P<minutes>{NUMBER}[^\W\d]*\s*[^\W\d_]+),?(?: @)? ?(?P<heat>{NUMBER}.+)",
)
"""How long and how warm, in either order."""
HOPPED_LABEL = "what its label says, as 25 IBU in 23 L"


def read_malts(nodes: Iterable[Node], desk: Desk) -> Iterator[Malt]:
    """The lines under `malts` that can be read; what is steeped in words alone is steeped as what stands before it."""
    last: Steep | None = None
    for node in nodes:
        with suppress(Unreadable):
            malt = read_malt(node, desk, last)
            last = malt.steep or last
            yield malt


def read_malt(node: Node, desk: Desk, before: Steep | None = None) -> Malt:
    """A line under `malts` behind one that is steeped so; `Unreadable` where it cannot be read."""
    line = _colour_apart(desk.line(node, "malts"), desk)
    match = _malts_named(line, desk)
    of_colour = None if match.found else _caramel(line, desk)
    slip = not match.found and not (line.get("extract") or line.get("potential")) and match.nearest != ""
    found = of_colour or desk.only(line, match, "malt", MALT_NEEDS, (lambda _: None) if slip else assumed_malt)
    record = found.record
    amount = _amount(line, record.name, None)
    steep = _steep(line.get("steep"), before, line)
    moisture = _value(line, "moisture", f"moisture of {record.name}", record.moisture, of_malt=True)
    extract = _extract(line, record, moisture)
    if extract is None or amount is None:
        raise Unreadable
    return Malt(
        name=record.name,
        amount=amount,
        extract_dry=extract[0],
        moisture=extract[1],
        colour=_value(line, "colour", f"colour of {record.name}", record.colour, of_malt=True),
        kind=record.kind,
        cereal=record.cereal,
        diastatic_power=_diastatic_power(line, record),
        needs_mash=record.needs_mash,
        steep=steep,
        place=line.place,
        brings=on_line(line, brings_of(record, desk.pantry, known=not found.assumed), desk),
        own_words=found.own_words,
        note=line.note,
        assumed=found.assumed,
    )


def read_sugar(node: Node, brew: Brew, desk: Desk) -> Sugar:
    """A line under `sugars`; `Unreadable` where it cannot be read."""
    line = desk.line(node, "sugars")
    match = desk.pantry.sugars.look_up(line.name.value)
    return _dissolving(line, desk.only(line, match, "sugar", DISSOLVES, assumed_sugar), brew, desk)


def read_extract(node: Node, brew: Brew, desk: Desk) -> tuple[Sugar, HoppedKit | None]:
    """A line under `extracts`, with its bitterness where it is hopped; `Unreadable` otherwise."""
    line = desk.line(node, "extracts")
    plain, said_hopped = _SAID_HOPPED.subn("", line.name.value)
    found = desk.only(line, desk.pantry.extracts.look_up(plain), "extract", DISSOLVES, assumed_extract)
    hopped = line.get("hopped")
    if said_hopped and hopped is None:
        what = f"the bitterness of {found.record.name} is not told: {UNSAID_KIT} is taken, give or take half of it"
        line.warning(what, HOPPED_LABEL, at=line.name)
        hopped = Text(UNSAID_KIT, line.name.place, exact=False)
    if hopped is not None:
        found = replace(found, record=replace(found.record, name=found.record.name + HOPPED))
    sugar = _dissolving(line, found, brew, desk)
    kit = _kit(hopped, found.record.name, line) if hopped else None
    if hopped and kit is None:
        raise Unreadable
    return sugar, kit


def _dissolving(line: Line, found: Found[records.Sugar] | Found[records.Extract], brew: Brew, desk: Desk) -> Sugar:
    record = found.record
    if isinstance(record, records.Extract):
        usual, attenuation = record.attenuation, from_pantry(record.attenuation, f"attenuation of {record.name}")
    else:
        usual = record.fermentable
        attenuation = _value(line, "fermentable", f"share of {record.name} that ferments", usual)
    amount = _amount(line, record.name, record.density)
    moment = _moment(line, record.name, brew)
    if isinstance(moment, BeforeTheEnd) and (line.get("fermenter") or line.get("days")):
        raise line.error("both a time in the boil and the fermenter", at=line.get("time"))
    moisture = from_pantry(record.moisture, f"moisture of {record.name}")
    if line.get("extract"):
        why = "the line states its extract as sold"
        moisture = by_default(0.0, "fraction", f"moisture of {record.name}", why)
    extract = _extract(line, record, moisture)
    if extract is None or amount is None or moment is None:
        raise Unreadable
    return Sugar(
        name=record.name,
        amount=amount,
        extract_dry=extract[0],
        moisture=extract[1],
        colour=_value(line, "colour", f"colour of {record.name}", record.colour),
        kind=record.kind,
        from_malt=isinstance(record, records.Extract),
        attenuation=attenuation,
        usual_attenuation=(usual.low, usual.high),
        moment=moment,
        label=hopped.value if (hopped := line.get("hopped")) else "",
        place=line.place,
        brings=on_line(line, brings_of(record, desk.pantry, known=not found.assumed), desk),
        own_words=found.own_words,
        note=line.note,
        assumed=found.assumed,
    )


def _moment(line: Line, name: str, brew: Brew) -> Moment | None:
    """When it goes in; `None` with a problem filed where that cannot be read."""
    moment = brew.timed(line, f"{name}, minutes before the end", f"{name}, days in the beer")
    if moment or line.get("time") or line.get("days"):
        return moment
    return Stage.FERMENTER if line.get("fermenter") else Stage.KETTLE


def _colour_apart(line: Line, desk: Desk) -> Line:
    """A line whose name ends in a colour that no malt has in its name, with that as its colour."""
    name = line.name.value
    match = COLOURED.fullmatch(name)
    shelf = desk.pantry.malts
    if match is None or not match["name"] or line.get("colour") or shelf.look_up(name).found:
        return line
    number, unit = match["number"], match["unit"]
    if unit is None and not shelf.look_up(match["name"]).found:
        return line
    if unit is None:
        unit = "EBC" if float(number) > LIGHTEST_IN_EBC else "°L"
        line.warning(f"{number} is taken as {number} {unit}", f"{number} °L, or {number} EBC", at=line.name)
    colour = Text(f"{number} {'EBC' if 'ebc' in unit.casefold() else '°L'}", line.name.place, exact=False)
    return replace(line, name=line.name.part(0, match.end("name")), parts={**line.parts, "colour": colour})


def _malts_named(line: Line, desk: Desk) -> Match[records.Malt]:
    """The malts that a line may mean: "crystal malt, 150 EBC" says by its colour which of its kind is nearest."""
    match = desk.pantry.malts.look_up(line.name.value)
    like = _LIKE.match(line.name.value)
    if like and not match.found:
        match = replace(desk.pantry.malts.look_up(line.name.value[like.end() :]), aside=True)
    kin = match.found
    if match.usual and match.usual.kind == "caramel":  # dark crystal: all of its kind, for the line knows better
        kin = desk.pantry.malts.look_up("caramel malt").found
    colour = line.quantity("colour") if line.get("colour") and len(kin) > 1 else None
    if colour is None:
        return match
    lovibond = colour.number if colour.base == "°L" else in_lovibond(colour.number)
    nearest = min(kin, key=lambda record: abs(record.colour.typical - lovibond))
    if len({record.kind for record in kin}) > 1:
        what = f'"{line.name.value}" may be several: {typed(nearest.name)} is nearest in colour, and taken'
        line.warning(what, match.names, at=line.name)
    return replace(match, found=(nearest,), usual=None)


def _caramel(line: Line, desk: Desk) -> Found[records.Malt] | None:
    """A caramel malt of whatever adjectives by its colour, which is all that tells one from another."""
    words = VOCABULARIES["malts"].words(line.name.value)
    colour = line.quantity("colour") if line.get("colour") else None
    if colour is None or "caramel" not in words or line.get("extract") or not _OTHER_GRAINS.isdisjoint(words):
        return None
    kin = [it for it in desk.pantry.malts.look_up("caramel malt").found if it.cereal == "barley"]
    lovibond = colour.number if colour.base == "°L" else in_lovibond(colour.number)
    nearest = min(kin, key=lambda record: abs(record.colour.typical - lovibond))
    return Found(nearest, own_words=" ".join(line.name.value.split()))


def _amount(line: Line, name: str, density: records.Spread | None) -> Weight | Share | None:
    """The weight or the share; `None` with a problem filed where there is neither."""
    amount = line.amount
    if amount is None:
        line.error(f"no amount of {line.name.value}", "an amount, as 250 g")
    elif amount.base == "fraction":
        return Share(said(amount, f"share of {name}"))
    elif amount.base == "kg":
        return Weight(said(amount, f"weight of {name}"))
    elif amount.base == "L" and density is not None:
        weighed = f"weighed by its density, {density.typical:g} g/L, {density.source}; the recipe"
        return Weight(said(amount, f"weight of {name}", unit="kg", factor=density.typical / 1000, origin=weighed))
    else:
        why = "a spoon or cup of it has no known weight" if amount.base == "L" else f'"{amount.text}" is not a weight'
        line.error(why, "a weight, as 250 g, or a share, as 90 %", at=amount)
    return None


def _value(line: Line, key: str, label: str, typical: records.Spread, *, of_malt: bool = False) -> Value:
    """What the line says of a property, before what the pantry says; one figure of a malt alone is as sure as usual."""
    read, usual = line.quantity(key), USUAL.get(key, "")
    return said(read, label, usual=usual) if read else from_pantry(typical, label, usual=usual if of_malt else "")


def _extract(
    line: Line, record: records.Malt | records.Sugar | records.Extract, moisture: Value
) -> tuple[Value, Value] | None:
    """Extract and moisture; a potential is of the thing as it is weighed, its water in it."""
    text, label = line.get("potential"), f"extract of {record.name}"
    if text is None:
        of_malt = isinstance(record, records.Malt)
        return _value(line, "extract", label, record.extract, of_malt=of_malt), moisture
    if line.get("extract"):
        line.error("both an extract and a potential", "one of them", at=text)
        return None
    read = line.quantity("potential")
    if read is None:
        return None
    if read.number > PURE[read.base]:
        most = f"no more than {PURE[read.base]:g}, which is pure extract"
        line.error(f'"{read.text}" is too much', most, at=text)
        return None
    weighed = by_default(
        0.0, "fraction", f"moisture of {record.name}", "the line states its potential as it is weighed"
    )
    return said(read, f"potential of {record.name}, as it is told", usual="potential by weight"), weighed


def _diastatic_power(line: Line, record: records.Malt) -> Value | None:
    text, label = line.get("diastatic power"), f"diastatic power of {record.name}"
    if text is None:
        return from_pantry(record.diastatic_power, label) if record.diastatic_power else None
    read = read_spread(text, DIASTATIC_POWER, line.problems, "")
    if read is None:
        return None
    return given(
        read.typical,
        read.unit,
        label,
        words=f"the recipe: {text.value}",
        by=By.AUTHOR,
        written=text.value,
        place=text.place,
        ends=(read.low - read.typical, read.high - read.typical),
    )


def _steep(text: Text | None, before: Steep | None, line: Line) -> Steep | None:
    """How a malt is steeped: as its line says, else as the one ``before`` it is, else as is usual."""
    if text is None:
        return None
    parts = text.split(r",?\s*\bsteep(?:ed)?\b(?:\s+for\b)?,?\s*")
    told = next((it for it in parts if re.search(rf"\d|{IN_WORDS}", it.value, re.IGNORECASE)), parts[-1])
    in_words = {"min", "°C", "degrees", ""}.isdisjoint(base for base, _ in measures(told.value))
    if in_words and before:
        how = f"{before.minutes.number:g} min at {before.temperature.number:.3g} °C"
        line.warning(f'"{text.value}" is taken as with the one before: {how}', f"steep {how}", at=text)
        return before
    if in_words:
        line.warning(f"nothing says how it is steeped: {STEEPED} is taken", f"steep {STEEPED}", at=text)
        told = Text(STEEPED, text.place, exact=False)
    said_of = line.pieces(told, next((it for it in STEEPS if fits(it, told.value)), STEEPS[0]), STEEP)
    if said_of is None:
        return None
    minutes, heat = line.read(said_of["minutes"], f.TIME), line.read(said_of["heat"], f.TEMPERATURE)
    if minutes is None or heat is None:
        return None
    return Steep(said(minutes, "time of the steep"), said(heat, "temperature of the steep"))


def _kit(text: Text, name: str, line: Line) -> HoppedKit | None:
    said_of = line.pieces(text, "(?P<bitterness>.+?) in (?P<volume>.+)", KIT, "a kit")
    if said_of is None:
        return None
    bitter, volume = line.read(said_of["bitterness"], f.BITTERNESS), line.read(said_of["volume"], f.VOLUME)
    if bitter is None or volume is None:
        return None
    return HoppedKit(
        name,
        said(bitter, f"bitterness of {name} by its label", unit="IBU", usual="label"),
        said(volume, f"volume that the label of {name} means"),
        line.place,
    )
