"""What an author may write in a batch, described once: every field, and every part of every kind of line."""

from collections.abc import Mapping

from gristbook.model.batch import LogScale, Vessel
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Kind
from gristbook.reading.line import Property
from gristbook.reading.quantity import NUMBER
from gristbook.text.parts.common import DEGREES, GIVE, VOLUMES
from gristbook.text.priming import PRIMERS
from gristbook.text.vocabulary import RECIPE

LEVEL = Kind("wort in a vessel, as 25.5 L at 1.036, 60 °C", shape="lines")
READING = Kind("a gravity and its sample, as 1.036 at 24 °C")
PACKAGED = Kind("a line, as 2026-03-28, 19 L, 95 g table sugar, swing-top bottles", shape="lines")
LOG = Kind("a line, as 2026-03-14.csv, time in taken, gravity in sg", shape="lines")
MASH_HEAT = Kind("a temperature, as 67 °C, from 30 to 80 °C", ("°C",), least=30, most=80)
PITCHED = Kind("a temperature, as 19 °C, from -5 to 45 °C", ("°C",), least=-5, most=45)
CALIBRATION = Kind("a temperature, as 20 °C, from 0 to 40 °C", ("°C",), most=40)
COLUMN = Kind("a column's heading")

VESSELS: tuple[Vessel, ...] = ("bottles", "heavy bottles", "swing-top bottles", "keg")
SCALES = {"°C": "°C", "C": "°C", "°F": "°F", "F": "°F"}
EXTRACT_SCALES: Mapping[str, LogScale] = {"SG": "SG", "°P": "°P", "PLATO": "°P"}
ORDERS = ("day first", "month first")

_DEGREES = rf"[-−]?{NUMBER}{GIVE}\s*{DEGREES}{GIVE}"
_VOLUME = rf"{NUMBER}{GIVE}\s*{VOLUMES}{GIVE}"
_GRAVITY = rf"[-−]?{NUMBER}{GIVE}(?:\s*(?:°?\s?P|Plato|°?\s?Bx|°?Brix){GIVE})?"
_DAY = r"(?P<value>\d{4}-\d{1,2}-\d{1,2})"

LEVEL_MARK = rf",|\s+at\s+(?!{_DEGREES})"
"""What parts a line of wort: a comma, and an `at` before its gravity; the `at` before degrees says how warm it was."""

READING_MARK = r"\s+at\b|(?<!\d),|,(?!\d)"
"""What parts a gravity from how warm its sample was; a comma between digits is a decimal."""

BATCH: tuple[Field, ...] = (
    Field("brewed", f.DATE, "The day; the day in the file's name where nothing is said."),
    Field("brewhouse", f.WORDS, "The brewhouse it was brewed in; without one it teaches the book nothing of any."),
    Field("edition", f.WORDS, "The edition that was brewed, as book.yaml writes it."),
    Field("yeast", f.WORDS, "The yeast that the book learns about."),
    Field("recipe", f.TABLE, "The recipe and its plan as they stood when the batch was begun.", required=True),
    Field("measured", f.TABLE, "What was measured."),
    Field("ready", f.DATE, "When it was fit to drink."),
    Field("tasted", f.LINES, "How it tasted: a day, a comma, and words."),
    Field("thrown away", f.WORDS, "Why there is none of it to drink."),
    Field("no lesson", f.WORDS, "Why the book should not learn from this batch."),
)

KEPT = ("title", "date", "style", "batch", "boil", "kettle", "original gravity", "malts", "sugars", "fruit", "extracts",
        "hops", "yeast", "mash", "water", "finings and spices", "ferment", "carbonation")  # fmt: skip
"""The sections of a recipe that a batch keeps, in their order."""

FROZEN: tuple[Field, ...] = (
    *(
        Field(row.name, row.kind, row.sentence, required=row.required)
        for name in KEPT
        for row in RECIPE
        if row.name == name
    ),
    Field("plan", f.TABLE, "The plan's figures by name, as 1.0432 ± 0.0021, or 20.1 ± 0.4 L.", required=True),
)

MEASURED: tuple[Field, ...] = (
    Field("hydrometer", CALIBRATION, "The temperature that it was made for, which is printed on it.", "20 °C"),
    Field("wort correction", f.RATIO, "What the refractometer's °Bx are divided by.", "1.04 ± 0.02"),
    Field("mash temperature", MASH_HEAT, "The temperature of the mash."),
    Field("first runnings", READING, "The gravity of the first runnings."),
    Field("before the boil", LEVEL, "Wort in the kettle before the boil."),
    Field("boiled", f.TIME, "How long it boiled."),
    Field("end of the boil", LEVEL, "Wort in the kettle at the end of the boil."),
    Field("left in kettle", f.LOSS, "What stayed there."),
    Field("into the fermenter", f.VOLUME, "Wort in the fermenter, topped up."),
    Field("original gravity", READING, "The gravity at pitching."),
    Field("pitched", PITCHED, "How warm the wort was when the yeast went in."),
    Field("readings", f.LINES, "Each look at the fermenting beer."),
    Field("log", LOG, "Readings that an instrument wrote, in a file beside the batch."),
    Field("dry hopped", f.DATE, "The day that the first dry hops went in."),
    Field("final gravity", READING, "The gravity when it had stopped falling."),
    Field("left in fermenter", f.LOSS, "What stayed with the yeast."),
    Field("packaged", PACKAGED, "The day, the beer, its priming sugar, and what it went into."),
    Field("warmest storage", f.TEMPERATURE, "The warmest that it was, or will be, kept."),
)

LEVEL_PARTS: tuple[Property, ...] = (
    Property("volume", f.VOLUME, rf"(?P<value>{_VOLUME}(?:\s+hot|\s+cool|\s+at\s+{_DEGREES})?)", "25.5 L hot",
             "How much; hot is as it boils, 25.5 L at 60 °C as it says, and cool if nothing is said."),
    Property("gravity", f.SHOWN, rf"(?P<value>{_GRAVITY}(?:\s+at\s+{_DEGREES})?)", "1.036 at 24 °C",
             "What the instrument showed, uncorrected, and how warm the sample was."),
    Property("temperature", f.TEMPERATURE, rf"(?P<value>{_DEGREES})", "60 °C",
             "How warm all was that says nothing of its own."),
)  # fmt: skip

MOMENT_PARTS: tuple[Property, ...] = (
    Property("day", f.DATE, r"(?P<value>\d{4}-\d{1,2}-\d{1,2}(?:[\sT]+\d{1,2}:\d{1,2})?)", "2026-03-17",
             "The day, and the time of it, as 2026-03-17 07:30; noon if nothing is said."),
    Property("gravity", f.SHOWN, rf"(?P<value>{_GRAVITY}(?:\s+at\s+{_DEGREES})?)", "1.018 at 20 °C",
             "What the instrument showed, uncorrected; a sample that is not as warm as the beer says so."),
    Property("temperature", f.TEMPERATURE, rf"(?P<value>{_DEGREES})", "19 °C", "How warm the beer was."),
)  # fmt: skip

PACKAGED_PARTS: tuple[Property, ...] = (
    Property("day", f.DATE, _DAY, "2026-03-28", "The day."),
    Property("volume", f.VOLUME, rf"(?P<value>{_VOLUME})", "19 L", "The beer that was packaged."),
    Property("sugar", f.WORDS, rf"(?P<value>{NUMBER}{GIVE}\s*(?:k?g|oz|lbs?)\b.+)", "95 g table sugar",
             f"What primed it: {PRIMERS}."),
    Property("vessel", Kind(", ".join(VESSELS), choices=VESSELS, shape="word"),
             rf"(?:in(?:to)?\s+)?(?:an?\s+)?(?P<value>{'|'.join(VESSELS)})", "swing-top bottles",
             "Bottles, heavy bottles, swing-top bottles or keg; bottles if nothing is said."),
)  # fmt: skip

LOG_PARTS: tuple[Property, ...] = (
    Property("file", f.WORDS, r"(?P<value>[^=]+\.(?:csv|tsv|txt))", "2026-03-14.csv", "The file, beside the batch."),
    Property("time", COLUMN, r"time in\s+(?P<value>.+)", "time in taken", "The heading over the times."),
    Property("day", COLUMN, r"day in\s+(?P<value>.+)", "day in date", "The heading over the days, if apart."),
    Property("gravity", COLUMN, r"gravity in\s+(?P<value>.+)", "gravity in sg", "The heading over the gravities."),
    Property("gravity scale", Kind("SG or °P", choices=tuple(EXTRACT_SCALES), shape="word"),
             rf"(?P<value>{'|'.join(EXTRACT_SCALES)})", "°P", "Their unit; SG if neither this nor the heading says."),
    Property("temperature", COLUMN, r"temperature in\s+(?P<value>.+?)", "temperature in beer",
             "The heading over the temperatures."),
    Property("scale", Kind("°C or °F", choices=tuple(SCALES), shape="word"), rf"(?P<value>{'|'.join(SCALES)})", "°F",
             "Their unit; °C if nothing is said."),
    Property("only", Kind("a word and its heading"), r"only\s+(?P<value>.+ in .+)", "only 14 in brew",
             "Which rows are this brew's, in a file of several."),
    Property("order", Kind("day first or month first", choices=ORDERS, shape="word"),
             rf"(?P<value>{'|'.join(ORDERS)})", "day first", "How to read 03/04/2026."),
)  # fmt: skip

LOG_MARK = r',(?=(?:[^"]*"[^"]*")*[^"]*$)'
"""What parts a line of a log: a comma that is not in the quotation marks of a heading."""

PLAN_UNITS: Mapping[str, tuple[float, float]] = {
    **{
        unit: (kind.least, kind.most)
        for unit, kind in (
            *(("SG", f.SHOWN), ("fraction", f.SHARE), ("L", f.LOSS), ("L/h", f.BOIL_OFF), ("°C", f.TEMPERATURE)),
            *(("min", f.TIME), ("IBU", f.BITTERNESS)),
        )
    },
    **dict.fromkeys(("°P", "°Bx"), f.SHOWN.degrees),
    "d": (f.DAYS.least / 1440, f.DAYS.most / 1440),
    "%": (0.0, 30.0),
    "pH": (0.0, 14.0),
    "SRM": (0.0, 200.0),
    "EBC": (0.0, 400.0),
    "vol": (0.0, 15.0),
    "bar": (0.0, 50.0),
    "kg": (0.0, 1e6),
    "mg/L CaCO₃": (-1e5, 1e5),
    **dict.fromkeys(("ratio", "g", "mg/L", "g/L", "mL", "°Lintner", "°WK"), (0.0, 1e9)),
    **dict.fromkeys(("packs", "10⁹ cells", "kcal", "kJ"), (0.0, 1e9)),
}
"""Units of the plan's figures, and what a figure in each can be at all; a number without a unit is a gravity, SG.

Where an author may write the same kind of figure, it is held to the same; a strength to what yeast can make."""
