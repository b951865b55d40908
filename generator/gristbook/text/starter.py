"""A book as it is begun: what a beginner can say of his vessels, and the files that follow from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import floor
from pathlib import Path

from gristbook.problems import Place, Problems
from gristbook.reading import fields as f
from gristbook.reading.fields import field_called, read_quantity
from gristbook.reading.files import read_text
from gristbook.reading.page import read_page
from gristbook.reading.tree import Text
from gristbook.text.begun import quoted
from gristbook.text.vocabulary import RECIPE as RECIPE_FIELDS

GALLON_L, OUNCE_KG = 3.785411784, 0.028349523125
RECIPE = "landing-stage-ale.md"

OF_THE_POT: Mapping[str, float] = {"bag": 0.45, "tun": 0.55, "nothing": 0.55}
"""How much beer a pot makes without boiling over, or with a bag being too full (common practice, no source)."""

BOILED = 0.6
"""How much of a pot is wort, where the rest of the batch is water that goes into the fermenter."""


STEAM = 0.15
"""How much of the wort in a small pot an hour of boiling takes (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Vessels:
    """What stands in the kitchen, in litres, and whether the book speaks in US units."""

    pot: float
    mash: str
    batch: float
    us: bool

    def volume(self, litres: float) -> str:
        """A volume as the book writes it."""
        return f"{litres / GALLON_L:.3g} gal" if self.us else f"{litres:.3g} L"

    def degrees(self, celsius: float) -> str:
        """A temperature as the book writes it."""
        return f"{1.8 * celsius + 32:.0f} °F" if self.us else f"{celsius:g} °C"

    @property
    def topped(self) -> bool:
        """Whether the pot boils less than the batch, and water tops it up."""
        return self.mash == "nothing" and self.batch > OF_THE_POT["nothing"] * self.pot

    def weight(self, kg: float) -> str:
        """A weight as the book writes it, in steps of a kitchen's scale."""
        if not self.us:
            return f"{round(kg, 2):g} kg" if kg >= 1 else f"{1000 * kg:.0f} g" if kg < 0.1 else f"{round(100 * kg)}0 g"
        pounds, ounces = divmod(round(kg / OUNCE_KG) if kg > 0.1 else round(kg / OUNCE_KG, 1), 16)
        return " ".join(part for part in (f"{pounds:g} lb" * bool(pounds), f"{ounces:g} oz" * bool(ounces)) if part)


def litres(answer: str, problems: Problems, *, where: str, us: bool | None = None) -> tuple[float, bool] | None:
    """A volume as it was typed, in litres, and whether it is a US one; `None` with a problem filed where it is none.

    A number alone is gallons in a US book, and litres in any other.

    >>> litres("5 gal", Problems(), where="here"), litres("20", Problems(), where="here")
    ((18.92705892, True), (20.0, False))
    """
    number = answer.strip().replace(".", "", 1).isdecimal()
    words = f"{answer.strip()} {'gal' if us else 'L'}" if number else answer.strip()
    read = read_quantity(Text(words, Place(where), exact=False), f.VOLUME, problems)
    return (read.number, not number and any(it in words for it in ("gal", "qt", "quart"))) if read else None


def chosen(answer: str, choices: Iterable[str]) -> str | None:
    """The choice whose beginning was typed; `None` where that is none of them.

    >>> chosen("Ba", OF_THE_POT), chosen("sink", OF_THE_POT)
    ('bag', None)
    """
    typed = answer.strip().casefold()
    return next((it for it in choices if typed and it.startswith(typed)), None)


def usual_batch(pot: float, mash: str, *, us: bool) -> float:
    """How much beer goes with a pot, in litres: round, in litres or in half gallons."""
    step = GALLON_L / 2 if us else 1.0
    return max(floor(OF_THE_POT[mash] * pot / step + 1e-9) * step, 0.5 * step)


def files(title: str, vessels: Vessels) -> dict[str, str]:
    """The files of a new book by their paths in it."""
    return {
        "book.yaml": _book(title, vessels),
        RECIPE: _recipe(vessels),
        "README.md": NEXT,
        ".gitignore": "# The site is made anew from these texts.\n/site/\n*~\n*.swp\n.DS_Store\n",
    }


def renamed(path: Path, title: str, problems: Problems) -> str | None:
    """The text of a recipe's file under another title, all else as it stands; `None` with a problem filed."""
    source = read_text(path.parent, path.name, problems, shown=str(path))
    page = read_page(source, str(path), problems) if source is not None else None
    if source is None or page is None:
        return None
    keys = [(key.place.line, field_called(RECIPE_FIELDS, key.value)) for key, _ in page.front.entries]
    lines, own = source.split("\n"), f"title: {quoted(title)}"
    at = next((line for line, field in keys if field and field.name == "title"), None)
    if at is None:
        return "\n".join([lines[0], own, *lines[1:]])
    after = min((line for line, _ in keys if line > at), default=at + 1)
    return "\n".join([*lines[: at - 1], own, *lines[after - 1 :]])


def _book(title: str, vessels: Vessels) -> str:
    mash = {"bag": "bag", "tun": "sparge", "nothing": "none"}[vessels.mash]
    tun = "    # tun: 30 L               # your mash tun, to the brim\n" if vessels.mash == "tun" else ""
    steam = f"{vessels.volume(STEAM * BOILED * vessels.pot)}/h"
    boil_off = f"    boil-off: {steam}   # a guess for so small a pot\n" if vessels.topped else ""
    return f"""\
title: {quoted(title)}
{"units: US" + chr(10) if vessels.us else ""}brewhouses:
  home:
    batch: {vessels.volume(vessels.batch)}
    kettle: {vessels.volume(vessels.pot)}
    mash: {mash}
{boil_off}{tun}    # What you have not measured is taken as it usually is. Once you know it, say it here, as
    # efficiency: 72 %
    # left in kettle: {"0.2 gal" if vessels.us else "0.7 L"}
"""


def _recipe(vessels: Vessels) -> str:
    hops = (1.6 if vessels.topped else 1.0) * vessels.batch  # strong wort takes less of them
    size, weigh, degrees = vessels.batch, vessels.weight, vessels.degrees
    partial = f"kettle: {vessels.volume(BOILED * vessels.pot)}   # the pot boils so much, and water tops it up\n"
    if vessels.mash == "nothing":
        grist = f"""\
malts:
  - {weigh(0.013 * size)} caramel malt 60, steep 30 min at {degrees(68)}
extracts:
  - {weigh(0.045 * size)} light dried malt extract, 60 min
  - {weigh(0.075 * size)} light dried malt extract, 10 min
"""
    else:
        grist = f"malts:\n  - {weigh(0.185 * size)} pale ale malt\n  - {weigh(0.013 * size)} caramel malt 60\n"
    return f"""\
---
title: Landing Stage Ale
summary: A copper-coloured ale for a first boil, with one hop and nothing that is hard to buy.
batch: {vessels.volume(size)}
{partial if vessels.topped else ""}{grist}hops:
  - {weigh(0.0017 * hops)} East Kent Golding, 5 % alpha, 60 min
  - {weigh(0.001 * hops)} East Kent Golding, 5 % alpha, 10 min
yeast: {max(round(1.2 * size), 1) / 2:g} g english ale yeast, attenuative, dried
{"" if vessels.mash == "nothing" else f"mash: {degrees(66)}, 60 min{chr(10)}"}ferment: {degrees(19)}, 14 days
carbonation: 2.2 volumes, primed with table sugar
---
The landing stage has six planks, and by September most people have fallen off it once. This is the ale that is handed
to them afterwards: biscuit and a little toffee, a hop that smells of hedges, and no more strength than a wet person
can walk home with.

## The brew day

{ON_THE_DAY[vessels.mash]}
{COOLED}

Then wait. Fourteen days are longer than they look, and the beer knows the way without being watched.
"""


ON_THE_DAY: Mapping[str, str] = {
    "bag": "The bag goes into the pot with the grain in it, and comes out an hour later, drained and never wrung.",
    "tun": "The grain sits in its tun for an hour; what runs off it, and what is rinsed after, goes into the pot.",
    "nothing": "The bag of grain steeps and is lifted out before the boil. Take the heat off while extract goes in.",
}
COOLED = """\
After the boil the pot stands, its lid on, in a sink of cold water that is changed as it warms; a cooling coil hangs in
it for the last quarter of an hour of the boil, which cleans the coil, and is quicker."""

NEXT = """\
# What comes next

This file is for you; no page is made of it.

1. `gristbook check .` reads the book and says what is wrong, where, and what was probably meant.
2. `gristbook preview .` shows the book in a browser and follows what you save; `gristbook build .` makes the site: open
   `site/index.html`.
3. `gristbook new "The Name of a Beer"` begins a recipe; `--from landing-stage-ale.md` begins with a copy of that one.
4. `gristbook brew landing-stage-ale.md`, on the day, begins a batch, with blanks for what you measure.

`gristbook manual my-manual` writes the manual: all that may be written in a book, with examples. `gristbook words`
lists the same in the terminal, `gristbook words hops` what hops there are. Your vessels stand in `book.yaml`: the more
of them you measure, the better the figures fit your kitchen.
"""
