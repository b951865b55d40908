"""The parts of a line of hops."""

from gristbook.reading import fields as f
from gristbook.reading.fields import Kind
from gristbook.reading.lines import Property
from gristbook.reading.quantity import NUMBER
from gristbook.text.parts.common import ALLERGENS, DAYS, FLAG, GIVE, MINUTES, PERCENT, WORD

STAND = Kind("a stand, as 20 min at 80 °C, 30 min from 95 to 75 °C, or 30 min cooling from 95 to 75 °C")

STORE = Kind("a store, as 30 weeks at 4 °C, or 30 weeks at 4 °C under vacuum")

HSI = Kind("a hop storage index, as 0.35", ("",), least=0.2, most=2.0)

HOP: tuple[Property, ...] = (
    Property("alpha", f.ALPHA, rf"(?P<value>{PERCENT})(?:\s+(?:alpha(?: acids?)?|aa))?", "4.5 % alpha", "Alpha acids."),
    Property("time", f.TIME, MINUTES, "60 min", "Minutes in the boil, counted from its end."),
    Property("first wort", FLAG, r"(?P<value>first wort)", "first wort", "In the kettle while the wort runs in."),
    Property(
        "stand",
        STAND,
        r"stand\s+(?P<value>.+)",
        "stand 20 min at 80 °C",
        "Steeped in the hot wort after the boil: held, falling evenly, or cooling by itself in a room of 20 °C.",
    ),
    Property("dry", f.DAYS, rf"dry(?:\s+hop(?:ped)?)?\s+{DAYS}", "dry 3 days", "In the beer, until it is packaged."),
    Property(
        "stored",
        STORE,
        r"stored\s+(?P<value>.+)",
        "stored 30 weeks at 4 °C",
        "Kept since its alpha was measured: open, airtight (what is taken if nothing is said) or under vacuum.",
    ),
    Property(
        "HSI",
        HSI,
        rf"HSI\s+(?P<value>{NUMBER}{GIVE})",
        "HSI 0.35",
        "Hop storage index of a later sheet than the one that gives the alpha; not for a sheet that gives both.",
    ),
    Property(
        "form", WORD, r"(?P<value>whole|pellets?)(?:\s+hops)?", "whole", "Whole cones; pellets if nothing is said."
    ),
    ALLERGENS,
)
