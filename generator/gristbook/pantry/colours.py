"""What beers are called by their colour, as a guideline of styles has it."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files


@cache
def colour_words() -> tuple[tuple[float, str], ...]:
    """Words from pale to dark, each with the colour (SRM) up to which it is said."""
    text = (files("gristbook") / "pantry" / "data" / "colours.csv").read_text(encoding="utf-8")
    return tuple((float(row["up to srm"]), row["word"]) for row in csv.DictReader(text.splitlines()))
