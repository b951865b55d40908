"""The parts of a line of malts, sugars or malt extracts."""

from dataclasses import replace

from gristbook.model.moment import Stage
from gristbook.pantry.fields import DIASTATIC_POWER
from gristbook.reading import fields as f
from gristbook.reading.fields import Kind
from gristbook.reading.line import Property
from gristbook.reading.notes import NOTE
from gristbook.reading.quantity import NUMBER, UP_TO
from gristbook.text.parts.common import (
    ALLERGENS,
    COLOUR,
    CONTACT,
    END,
    FERMENTER,
    FLAG,
    GIVE,
    HEAT,
    INTO_THE,
    LAST_DAYS,
    OFF,
    PERCENT,
    POWER,
    PREPARED,
    TIME,
    WORD,
    YIELD,
)
from gristbook.text.parts.extras import KETTLE, STAGES

STEEP = Kind("a steep, as 30 min at 68 °C")
POTENTIAL = Kind("a potential, as 36 ppg or 300 L°/kg", ("points·gal/lb", "L°/kg"))
KIT = Kind("a label's bitterness, as 25 IBU in 23 L")

MALT: tuple[Property, ...] = (
    Property(
        "colour",
        f.COLOUR,
        rf"(?P<value>{NUMBER}{UP_TO}(?:\s*(?:°\s?L|Lovibond|EBC){GIVE}|(?=\s*(?:L|SRM)$)))(?:\s*(?:L|SRM))?",
        "60 °L",
        "The malt's colour, before the pantry's.",
        unit="°L",
    ),
    Property("steep", STEEP, r"(?P<value>steep(?:ed)?(?: .+)?)", "steep 30 min at 68 °C", "Steeped, not mashed."),
    Property(
        "extract",
        f.SHARE,
        rf"(?P<first>extract )?(?P<value>{PERCENT})(?(first)|\s+extract)",
        "81 % extract",
        "Extract, fine grind, dry basis.",
    ),
    Property("potential", POTENTIAL, YIELD, "36 ppg", "Extract as it is weighed, in the trade's other ways."),
    Property("moisture", f.SHARE, rf"(?P<value>{PERCENT})\s+moisture", "4 % moisture", "The malt's moisture."),
    Property("diastatic power", DIASTATIC_POWER, POWER, "250 °WK", "The strength of its enzymes."),
    ALLERGENS,
)

IN_THE_BEER = Property("days", CONTACT, LAST_DAYS, "10 days", "Added to the beer so long before it is packaged.", True)

_DISSOLVING: tuple[Property, ...] = (
    replace(TIME, sentence="Minutes before the end of the boil; the whole boil if nothing is said."),
    END,
    Property(
        "fermenter",
        FLAG,
        rf"(?P<value>(?:added )?{INTO_THE}(?:{FERMENTER}|secondary)|fermenter|secondary)",
        "into the fermenter",
        "Added to the fermenting beer.",
    ),
    Property(
        "kettle",
        FLAG,
        f"(?P<value>{KETTLE})",
        "into the kettle",
        "In the whole boil, as where nothing is said.",
    ),
    IN_THE_BEER,
    Property("colour", f.COLOUR, COLOUR, "5 °L", "Its colour, before the pantry's."),
    Property("extract", f.SHARE, rf"(?P<value>{PERCENT})\s+extract", "80 % extract", "Extract as it is sold."),
    Property("potential", POTENTIAL, YIELD, "36 ppg", "Extract as it is weighed, in the trade's other ways."),
)

SUGAR: tuple[Property, ...] = (
    *_DISSOLVING,
    Property(
        NOTE,
        f.WORDS,
        rf"(?P<value>(?:(?:at|below|under|above|over) |cooled to ){HEAT.replace('?P<value>', '?:')})",
        "below 60 °C",
        "How warm the wort is then; it is shown, and nothing is reckoned of it.",
        again=True,
    ),
    Property(
        "fermentable",
        f.SHARE,
        rf"(?P<value>{PERCENT})\s+fermentable",
        "95 % fermentable",
        "What the yeast can take of it.",
    ),
    ALLERGENS,
)

EXTRACT: tuple[Property, ...] = (
    *_DISSOLVING,
    Property("hopped", KIT, r"(?P<value>.+IBUs? in .+)", "25 IBU in 23 L", "A hopped kit's bitterness, by its label."),
    ALLERGENS,
)

FRUIT: tuple[Property, ...] = (
    TIME,
    replace(END, pattern=f"(?P<value>{OFF}|after (?:the )?boil)"),
    replace(IN_THE_BEER, example="7 days"),
    Property(
        "moment",
        WORD,
        f"(?P<value>{'|'.join(pattern for stage, pattern in STAGES if stage is not Stage.STEEP)})",
        "after fermentation",
        "Another moment, in words; into the fermenter if nothing is said.",
    ),
    Property("sugar", f.SHARE, rf"(?P<value>{PERCENT})\s+sugar", "9 % sugar", "Its sugar, before the pantry's."),
    Property(
        "stones",
        FLAG,
        r"(?P<value>with(?: the)? (?:stones|pits)|(?:stones|pits) in|unpitted|unstoned)",
        "with stones",
        "Weighed with its stones; without them if nothing is said.",
    ),
    *PREPARED,
    ALLERGENS,
)
