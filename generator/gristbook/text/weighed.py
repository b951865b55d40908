"""What must be weighed in grams or measured in millilitres: salts, sulfites and acids, never by the spoon or ounce."""

import re

from gristbook.pantry.names import VOCABULARIES
from gristbook.reading.lines import Line
from gristbook.reading.quantity import Quantity
from gristbook.reading.units import UNITS, unit_named

_METRIC = frozenset(UNITS[name] for name in ("milligram", "gram", "kilogram", "millilitre", "litre"))
_CHEMICALS = frozenset(
    {
        *(
            "acid",
            "caustic",
            "hydroxide",
            "lye",
            "chloride",
            "carbonate",
            "bicarbonate",
            "phosphate",
            "sulfate",
            "sulfite",
        ),
        *("bisulfite", "disulfite", "metabisulfite", "benzoate", "sorbate", "nitrate", "nitrite"),
    }
)
"""Words of the names of what a spoonful of may make people ill (common practice, no source)."""
_SHOWN = {"kg": (1000.0, "g"), "L": (1000.0, "mL")}


def is_chemical(name: str) -> bool:
    """Whether a name is that of a salt, a sulfite or an acid, in either spelling.

    >>> is_chemical("Potassium metabisulphite"), is_chemical("citric acid"), is_chemical("sea salted caramel")
    (True, True, False)
    """
    return not _CHEMICALS.isdisjoint(VOCABULARIES["salts"].words(name.replace("sulph", "sulf")))


def in_metric(amount: Quantity, what: str, line: Line) -> bool:
    """Whether an amount was written in metric; otherwise a problem is filed, with what it comes to."""
    units = {unit_named(word) for word in re.findall(r"[^\W\d_]+", amount.text)} - {None}
    if units <= _METRIC:
        return True
    factor, unit = _SHOWN.get(amount.base, (1.0, amount.base))
    how = "weighed in grams" if unit == "g" else "measured in millilitres"
    meant = f"{factor * amount.number:.3g} {unit}, if so much is meant"
    line.error(f'"{amount.text}" of {what}, which is {how}', meant, at=amount)
    return False


def may_be_added(line: Line, known: bool) -> bool:
    """Whether a line of finings and spices is no chemical by the spoon, and no acid that nobody knows a dose of."""
    name, amount = line.name.value, line.amount
    if not is_chemical(name):
        return True
    if not known and "acid" in VOCABULARIES["acids"].words(name):
        line.error(
            f'nobody here knows a dose of "{name}"',
            "an acid of the pantry under water, or a record of it in pantry/finings.yaml",
            at=line.name,
        )
        return False
    if amount is None or amount.base != "kg":
        what = f'"{amount.text}" of a chemical is a guess' if amount else f"no amount of {name}"
        line.error(what, "its weight, as 5 g", at=amount)
        return False
    return in_metric(amount, "a chemical", line)
