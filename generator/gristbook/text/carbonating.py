"""The line of the carbonation to the model: so much gas, or so much sugar that makes it, and what it is packaged in."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from gristbook.model.packing import Carbonation, Drops, Holds, PrimingSugar
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, Quantity, Unreadable, number_in
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Node, Text
from gristbook.sheet.value import Value, given
from gristbook.text.parts.carbonation import DOSE, EACH, PER_BOTTLE, VESSELS
from gristbook.text.priming import TABLE_SUGAR, by_the_spoon, read_priming_sugar
from gristbook.text.values import Desk, by_default, said

GRAMS_IN_A_VOLUME = 1.9768
"""Carbon dioxide (g/L) in a volume of it (Span and Wagner 1996)."""
SERVED = "4 °C"
"""A keg of which nobody says how warm it is (common practice, no source)."""
DROP_G = 3.0
"""A carbonation drop (from memory: 2.5 to 3.5 g)."""
DROP_BOTTLE_L = 0.33
"""The bottle of a drop that says none (from memory: one for a small bottle, two for a large one)."""
IN_A_KEG, IN_A_CASK = 2.4, 1.3
"""Volumes where a keg or a cask says none (common practice, no source)."""
MEANWHILE = 2.0
"""Stands for the volumes until the sugar says them."""
EXAMPLE = "2.2 volumes, primed with table sugar"
CUBE_G = 4.0
"""A cube of sugar (from memory: 3 to 5 g)."""
DROPS = (
    rf"(?:(?P<count>{NUMBER}|{IN_WORDS}) )?(?:(?:carb(?:onation)? |sugar )?drops?|sugar (?P<cube>cube|lump)s?)"
    rf"(?: (?:of )?(?P<weight>{NUMBER}\s*g))?(?P<rest> .+)?"
)
SUGAR = rf"(?:(?P<dose>{DOSE})(?: of)?)?\s*(?P<name>.*?){PER_BOTTLE}?"
UNRECKONED = {
    "yeast": "yeast is reckoned as a line of its own, at bottling, and not here",
    "beer gas": "the pressure is reckoned for carbon dioxide alone",
}


@dataclass(frozen=True, slots=True)
class _Primed:
    """What makes the gas: a sugar, how much of it, and whether in drops."""

    sugar: PrimingSugar
    dose: Value | None
    drops: Drops | None = None


def read_carbonation(node: Node, desk: Desk) -> Carbonation | None:
    """The gas and how it comes there, `None` where there is to be none; `Unreadable` where it cannot be read."""
    line = desk.line(node, "carbonation")
    if line.get("still") and line.says <= {"still", "vessel"}:
        return None
    keg, named = line.get("keg"), line.get("sugar")
    primed = _primed(line, desk)
    pushed = _pushed(line, primed)
    if in_keg := primed is not None and keg is not None:
        line.warning("a keg that is primed is reckoned as a cask: its gas is the sugar's", at=named or keg)
    keg = None if in_keg else keg or line.get("pressure")
    vessel = _vessel(line, "cask" if in_keg else "keg" if keg else "bottles")
    served = line.quantity("served")
    if line.get("served") and served is None:
        raise Unreadable
    if served and not keg:
        line.warning(
            f"{served.text} is not reckoned: only a keg has a temperature here", f"keg, {served.text}", at=served
        )
        served = None
    if pushed and served is None:
        line.warning(f"no temperature of the keg: {SERVED} is taken", f"keg, {pushed.text}, {SERVED}", at=pushed)
        served = line.read(Text(SERVED, line.place, exact=False), f.TEMPERATURE)
    volumes = _volumes(line)
    by_dose = volumes is None and primed is not None and primed.dose is not None
    if by_dose or pushed:
        gas = by_default(MEANWHILE, "vol", "carbonation", "until the sugar or the pressure says it")
    elif volumes is not None:
        gas = volumes
    elif vessel in ("keg", "cask"):
        usual = IN_A_KEG if keg else IN_A_CASK
        line.warning(
            f"no carbonation: {usual:g} volumes is taken, as usual in a {vessel}", f"{usual:g} volumes, {vessel}"
        )
        gas = by_default(usual, "vol", "carbonation", f"as usual in a {vessel}")
    else:
        raise line.error("no carbonation", EXAMPLE)
    return Carbonation(
        gas,
        None if keg else primed.sugar if primed else TABLE_SUGAR,
        line.place,
        vessel,
        primed.dose if primed else None,
        primed.drops if primed else None,
        by_dose,
        unsaid=not keg and primed is None,
        served=said(served, "the beer in the keg") if served else None,
        note=_note(line),
        pressure=said(pushed, "pressure at the keg's regulator") if pushed else None,
    )


def _vessel(line: Line, taken: Holds) -> Holds:
    """What it is packaged in, as the line says it; a keg is another part of it."""
    held = line.get("vessel")
    return meant(held, VESSELS.items()) if held and taken != "keg" else taken


def _pushed(line: Line, primed: _Primed | None) -> Quantity | None:
    """What the regulator is set to, where that and no number of volumes says the gas."""
    pushed = line.quantity("pressure")
    if pushed is None and line.get("pressure"):
        raise Unreadable
    if pushed and primed:
        raise line.error("both a keg and a priming sugar", at=pushed)
    if pushed and line.get("volumes"):
        line.warning(f"{pushed.text} is not reckoned: the volumes count, and the page says their pressure", at=pushed)
        return None
    return pushed


def _note(line: Line) -> str:
    """What the line says that no figure counts, each with its warning."""
    asides = {why: aside for key, why in UNRECKONED.items() if (aside := line.get(key))}
    for why, aside in asides.items():
        line.warning(f'"{aside.value}": {why}', at=aside)
    return "; ".join(it for it in (line.note, *(aside.value for aside in asides.values())) if it)


def _volumes(line: Line) -> Value | None:
    """The gas wanted, in volumes or in grams to a litre."""
    text = line.get("volumes") or (line.get("dose") if line.get("keg") else None)
    if text is None:
        return None
    grams, dissolved, _ = text.value.partition("/")
    if not dissolved:
        read = line.quantity("volumes")
    else:
        weighed = line.read(Text(f"{grams.rstrip()}/L", text.place, exact=False), f.SUGAR_DOSE)
        read = weighed and replace(weighed, number=weighed.number / GRAMS_IN_A_VOLUME, base="vol", text=text.value)
    if read is None:
        raise Unreadable
    if not 0 < read.number <= f.VOLUMES.most:
        raise line.error(f'"{read.text}" is too much', f.VOLUMES.words, at=read)
    return said(read, "carbonation")


def _primed(line: Line, desk: Desk) -> _Primed | None:
    """The priming of a line, with its amount where it has one."""
    named, told = line.get("sugar"), line.get("dose")
    doses = (line.pieces(told, rf"(?P<dose>{DOSE}){PER_BOTTLE}?", f.SUGAR_DOSE) if told else {}) or {}
    apart, of_bottle = line.read(doses.get("dose"), f.SUGAR_DOSE), told and fits(rf".*{PER_BOTTLE}", told.value)
    if told and apart is None:
        raise Unreadable
    if named is None:
        if (each := line.get("each")) and (lump := re.search("drop|sugar cube|sugar lump", each.value)):
            return _in_drops(line, Text(f"{lump[0]}s", each.place, exact=False))
        if line.get("each"):
            raise line.error("nothing says of what", "carbonation drops, 1 per 330 mL bottle", at=line.get("each"))
        if apart is not None and apart.base == "g/L" and line.get("keg"):
            return None  # a keg gets no sugar, so that is gas
        if apart is not None:
            meant_so = f"primed with {apart.text} table sugar, or {apart.text} CO2"
            raise line.error(f"{apart.text} of what?", meant_so, at=apart)
        return None
    if fits(DROPS, named.value):
        return _in_drops(line, named)
    if turned := fits(rf"(?P<name>\D+?) (?P<dose>{DOSE})", named.value):
        named = Text(f"{turned['dose']} {turned['name']}", named.place, exact=False)
    pieces = line.pieces(named, SUGAR, f.WORDS) or {}
    within = line.read(pieces.get("dose"), f.SUGAR_DOSE)
    if "dose" in pieces and (within is None or apart is not None):
        raise line.error("two amounts of sugar", EXAMPLE, at=named) if within else Unreadable
    name, dose = pieces.get("name"), within or apart
    if name is None:
        line.warning("no sugar is named: table sugar is taken", f"primed with {named.value} table sugar")
    sugar = read_priming_sugar(name, line, desk) if name else TABLE_SUGAR
    if dose and dose.base == "L":
        dose = by_the_spoon(dose, sugar, line, desk)
    if dose and (of_bottle or fits(rf".*{PER_BOTTLE}", named.value)):
        told_of = doses if of_bottle else pieces
        bottle = told_of.get("bottle") or told_of.get("size")
        bottle = Text(f"1 {bottle.value}", bottle.place, exact=False) if bottle and bottle.word == "pint" else bottle
        dose = _in_each(dose, line.read(bottle, f.VOLUME), line)
    return _Primed(sugar, _dose(dose))


def _in_each(dose: Quantity, bottle: Quantity | None, line: Line) -> Quantity:
    """The sugar of a bottle as that of a litre."""
    if bottle is None or dose.base != "kg":
        said_so = f"{line.whole.rpartition(' ')[0]} 500 mL bottle"
        raise line.error("nothing says how large a bottle is", said_so)
    over = 1000 / bottle.number
    spread = None if dose.tolerance is None else dose.tolerance * over
    return replace(dose, number=dose.number * over, base="g/L", text=line.whole, tolerance=spread)


def _dose(read: Quantity | None) -> Value | None:
    if read is None:
        return None
    label = "priming sugar, as the recipe says"
    return said(read, label) if read.base == "g/L" else said(read, label, unit="g", factor=1000.0)


def _in_drops(line: Line, named: Text) -> _Primed:
    """Lumps of sugar, so many to a bottle."""
    pieces = line.pieces(named, DROPS, f.WORDS) or {}
    each = line.get("each")
    if each is None and "rest" in pieces:
        each = Text(
            f"{pieces['count'].value if 'count' in pieces else 1} {pieces['rest'].value}", named.place, exact=False
        )
    of = (line.pieces(each, EACH, f.WORDS, "so many for a bottle") if each else {}) or {}
    if each and not of:
        raise Unreadable
    count, bottle = of.get("count") or pieces.get("count"), line.read(of.get("bottle"), f.VOLUME)
    if count is None:
        raise line.error("nothing says how many drops", "carbonation drops, 1 per 330 mL bottle", at=named)
    weight = line.read(pieces.get("weight"), f.MASS)
    number, grams = number_in(count.value), 1000 * weight.number if weight else DROP_G
    what, ends = ("carbonation drop", None) if "cube" not in pieces else ("sugar cube", (-1.0, 1.0))
    grams = CUBE_G if ends and not weight else grams
    litres = bottle.number if bottle else DROP_BOTTLE_L
    if weight is None or bottle is None:
        in_what = "" if bottle else f" and a bottle of {1000 * litres:g} mL"
        line.warning(
            f"a {what.split()[1]} of {grams:g} g{in_what} is taken, from memory",
            "carbonation drops of 3 g, 1 per 330 mL bottle",
        )
    words = f"the recipe: {number:g} {what}s of {grams:g} g in a bottle of {litres:g} L"
    each_one = given(number, "pieces", "carbonation drops in a bottle", words=words, place=line.place)
    size = (
        said(bottle, "bottle of the drops") if bottle else by_default(litres, "L", "bottle of the drops", "from memory")
    )
    over = number / litres
    spread = (ends[0] * over, ends[1] * over) if ends else None
    label = "priming sugar, as the recipe says"
    dose = given(grams * over, "g/L", label, words=words, place=line.place, ends=spread)
    return _Primed(replace(TABLE_SUGAR, called=f"{what}s of {grams:g} g"), dose, Drops(each_one, size))
