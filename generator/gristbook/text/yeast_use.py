"""How much yeast a line brings, from where, grown in what, and when it goes in."""

import re
from dataclasses import replace

from gristbook.model.moment import BeforePackaging, BeforeTheBoil, Moment, Stage
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.patterns import fits
from gristbook.reading.tree import Text
from gristbook.sheet.value import Value
from gristbook.text.brew import Brew
from gristbook.text.parts.yeast import EARLIER, MOMENTS, SOURED
from gristbook.text.values import by_default, in_days, said

GRAMS_IN_A_DRIED_PACK = 11.0
"""Common practice, no source: most packets of dried yeast for a home batch hold 11 to 11.5 g."""
GRAMS_IN_A_LITRE = 630.0
"""Dried yeast by the spoon (common practice, no source: 7 g fill two and a quarter teaspoons)."""
CELLS_IN_A_PACK = 100
"""Billions, as the plan takes a pack (common practice, no source)."""
SOURED_DAYS = 2.0
"""Wort of which nothing is said (common practice, no source: one to three days)."""

_SOURED = r"(?P<days>.+?)(?: at (?P<heat>.+))?"


def grown_first(line: Line) -> Line:
    """A line of so many litres of a starter of a yeast as one of that yeast, with its starter; and so of its cells."""
    if line.amount is not None and line.amount.base == "cells":
        cells = Text(f"{line.amount.number:g}", line.amount.place, exact=False)
        return replace(line, amount=None, parts={**line.parts, "cells": cells})
    if line.get("starter") and (grown := line.get("soured")):  # "starter 1.5 L, 36 h on the stir plate"
        line.warning(f"{grown.value} of the starter is not reckoned", at=grown)
        line = replace(line, parts={key: it for key, it in line.parts.items() if key != "soured"})
    of = re.match(r"starter\s+of\s+", line.name.value, re.IGNORECASE)
    if of is None or line.amount is None or line.amount.base != "L":
        return line
    parts = {**line.parts, "starter": Text(line.amount.text, line.amount.place)}
    return replace(line, amount=None, name=line.name.part(of.end()), parts=parts)


def called(line: Line, *, dried: bool) -> str:
    """The word for yeast of an earlier brew; "" where it is bought."""
    if text := line.get("earlier"):
        said_of = text.value.split(", ")
        return next(word for word, pattern in EARLIER if any(fits(pattern, it) for it in said_of))
    return "slurry" if line.amount is not None and line.amount.base == "L" and not dried else ""


def amount_of(line: Line, dried: bool, brew: Brew) -> Value | None:
    """Grams of dried yeast, packs, or millilitres of an earlier brew's; `None` with or without its problem filed."""
    amount, label = line.amount, "weight of the yeast"
    if line.get("cells"):
        return _by_cells(line)
    if amount is None:
        amount = line.quantity("each")
    if amount is None:
        return None
    if amount.base == "kg" and dried:
        return said(amount, label, unit="g", factor=1000.0)
    if amount.base == "L" and dried:
        weight = f"{GRAMS_IN_A_LITRE * amount.number:.2g} g"
        line.warning(f"{amount.text} of dried yeast is taken as {weight}", "its weight", at=amount)
        return said(
            amount, label, unit="g", factor=GRAMS_IN_A_LITRE, origin="by the spoon, common practice; the recipe"
        )
    if amount.base == "g/L" and dried:
        return brew.dosed(amount, "the yeast")
    if amount.base == "packs" and dried:
        each = line.quantity("each")
        grams = 1000 * each.number if each else GRAMS_IN_A_DRIED_PACK
        if each and amount.number < 1 and "each" not in line.whole:  # "half a sachet (about 5 g)"
            return said(each, label, unit="g", factor=1000.0)
        packs = "the recipe"
        if each is None:
            packs = f"packets taken as {GRAMS_IN_A_DRIED_PACK:g} g, common practice, no source; the recipe"
        return said(amount, label, unit="g", factor=grams, origin=packs)
    if amount.base == "packs":
        return said(amount, "packs of the yeast")
    if amount.base == "L" and not dried:
        return said(amount, "slurry of the yeast", unit="mL", factor=1000.0, metric=True)
    what = f'"{amount.text}" is no amount of {"dried" if dried else "liquid"} yeast'
    line.error(what, "grams of dried yeast, as 11 g, packs, as 2 packs, or slurry, as 150 mL", at=amount)
    return None


def _by_cells(line: Line) -> Value | None:
    """Liquid yeast by its cells, in packs of as many as is usual; `None` with a problem filed."""
    cells, amount = line.quantity("cells"), line.amount
    if cells is None:
        return None
    if amount is not None and amount.base != "packs":
        line.error("both cells and another measure of the yeast", "100 billion cells, or 2 packs, 100 billion cells")
        return None
    origin = f"a pack taken as {CELLS_IN_A_PACK:g} billion cells; the recipe"
    packs = (amount.number if amount else 1) / CELLS_IN_A_PACK
    return said(cells, "packs of the yeast", unit="packs", factor=packs, origin=origin)


def moment_of(line: Line, brew: Brew) -> Moment | BeforeTheBoil | None:
    """When a yeast goes in that is not pitched; `None` where it is, or with a problem filed."""
    stage = meant(text, MOMENTS) if (text := line.get("moment")) else None
    later, soured = line.get("later"), line.get("soured")
    if soured or stage is Stage.KETTLE or line.get("pH"):
        return _before_the_boil(soured, line)
    if later is None:
        return stage if stage is not Stage.YEAST else None
    days = brew.in_the_beer(later, "time in the beer", line)
    return BeforePackaging(days) if days else None


def _before_the_boil(text: Text | None, line: Line) -> BeforeTheBoil | None:
    label, sour = "time that the wort sours", line.quantity("pH")
    if line.get("pH") and sour is None:
        return None
    ph = said(sour, "pH that the wort is soured to", unit="pH") if sour else None
    if text is None:
        line.warning(f"no time for the wort to sour: {SOURED_DAYS:g} days are taken", "36 h at 38 °C")
        heat = line.quantity("temperature")
        warm = said(heat, "temperature of souring wort") if heat else None
        return BeforeTheBoil(by_default(SOURED_DAYS, "d", label, "common practice, no source"), warm, ph)
    said_of = line.pieces(text, _SOURED, SOURED) or {}
    days, heat = line.read(said_of.get("days"), f.DAYS), line.read(said_of.get("heat"), f.TEMPERATURE)
    if days is None or ("heat" in said_of and heat is None):
        return None
    return BeforeTheBoil(in_days(days, label), said(heat, "temperature of souring wort") if heat else None, ph)
