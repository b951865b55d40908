"""The parts of a line of finings and spices."""

from gristbook.model.moment import Stage
from gristbook.reading import fields as f
from gristbook.reading.lines import Property
from gristbook.text.parts.common import ALLERGENS, DAYS, INTO_THE, MINUTES, WORD

STAGES: tuple[tuple[Stage, str], ...] = (
    (Stage.MASH, f"{INTO_THE}mash"),
    (Stage.STEEP, f"{INTO_THE}steep"),
    (Stage.KETTLE, f"{INTO_THE}(?:kettle|boil)|(?:for )?(?:the )?whole boil"),
    (Stage.YEAST, "with(?: the)? yeast"),
    (Stage.FERMENTER, f"{INTO_THE}fermenter"),
    (Stage.FERMENTED, "after fermentation"),
    (Stage.PACKAGING, "at packaging"),
)

EXTRA: tuple[Property, ...] = (
    Property("time", f.TIME, MINUTES, "10 min", "Minutes before the end of the boil."),
    Property("days", f.DAYS, rf"(?:dry\s+)?{DAYS}", "3 days", "Days in the beer, until it is packaged."),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in STAGES)})",
        "into the fermenter",
        "Another moment, in words.",
    ),
    ALLERGENS,
)
