"""The parts of a line of the water."""

from gristbook.model.water import Into
from gristbook.reading import fields as f
from gristbook.reading.lines import Property
from gristbook.text.parts.common import INTO_THE, PERCENT, WORD

INTO: tuple[tuple[Into, str], ...] = (
    ("mash", f"{INTO_THE}mash"),
    ("sparge", f"{INTO_THE}sparge(?: water)?"),
    ("kettle", f"{INTO_THE}(?:kettle|boil)"),
)

WATER: tuple[Property, ...] = (
    Property("strength", f.SHARE, rf"(?P<value>{PERCENT})", "88 %", "An acid's strength, as its label says."),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for _, pattern in INTO)})",
        "in the mash",
        "Where a salt or an acid goes; into all the water if nothing is said.",
    ),
)
