"""The parts of a line of yeast."""

from gristbook.pantry.fields import PITCH_RATE
from gristbook.reading import fields as f
from gristbook.reading.lines import Property
from gristbook.reading.quantity import NUMBER
from gristbook.text.parts.common import ALLERGENS, PERCENT, WORD

YEAST: tuple[Property, ...] = (
    Property("form", WORD, r"(?P<value>dry|dried|liquid)(?:\s+yeast)?", "dried", "Dried or liquid."),
    Property(
        "attenuation",
        f.SHARE,
        rf"(?P<value>{PERCENT})(?:\s+attenuation)?",
        "75 % attenuation",
        "Apparent attenuation, before the pantry's.",
    ),
    Property(
        "made",
        f.DATE,
        r"made\s+(?P<value>\d{4}-\d{2}-\d{2})",
        "made 2026-01-20",
        "When a pack was filled.",
    ),
    Property(
        "pitch rate",
        PITCH_RATE,
        rf"pitch(?:ing)? rate\s+(?P<value>{NUMBER})",
        "pitch rate 1.0",
        "Million cells for each millilitre and °P, in place of what is usual for the yeast and the gravity.",
    ),
    ALLERGENS,
)
