"""The parts of a line of the mash, the ferment or the carbonation."""

from gristbook.reading import fields as f
from gristbook.reading.lines import Property
from gristbook.reading.quantity import NUMBER
from gristbook.reading.units import spellings
from gristbook.text.parts.common import DAYS, FLAG, HEAT, MINUTES, VOLUMES, WORD

MASH: tuple[Property, ...] = (
    Property("temperature", f.TEMPERATURE, HEAT, "67 °C", "The rest's temperature."),
    Property("time", f.TIME, MINUTES, "60 min", "How long it is held."),
    Property(
        "water",
        f.VOLUME,
        rf"(?P<value>{NUMBER}\s*{VOLUMES})(?:\s+water)?",
        "10 L",
        "Water poured in for it; worked out if nothing is said.",
    ),
    Property("way", WORD, r"(?P<value>infusion|decoction|heat)", "decoction", "How the rest is reached."),
)

FERMENT: tuple[Property, ...] = (
    Property("temperature", f.TEMPERATURE, HEAT, "19 °C", "The beer's temperature."),
    Property("time", f.DAYS, DAYS, "10 days", "How long it is held."),
)

CARBONATION: tuple[Property, ...] = (
    Property(
        "volumes", f.VOLUMES, rf"(?P<value>{NUMBER}\s*{spellings('carbonation')})", "2.2 volumes", "Gas in the glass."
    ),
    Property(
        "sugar",
        f.WORDS,
        r"primed with\s+(?P<value>.+)",
        "primed with table sugar",
        "The sugar, or dried malt extract, that makes it.",
    ),
    Property("keg", FLAG, r"(?P<value>(?:in a )?keg)", "keg", "Carbonated under pressure, without sugar."),
)
