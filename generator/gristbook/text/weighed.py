"""What must be weighed in grams or measured in millilitres: salts, sulfites and acids, never by the spoon or ounce."""

import re

from gristbook.pantry.names import VOCABULARIES
from gristbook.reading.line import Line
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


def refuse_other_than_metric(amount: Quantity, what: str, line: Line) -> None:
    """Refuse an amount that was not written in metric, with what it comes to."""
    units = {unit_named(word) for word in re.findall(r"[^\W\d_]+", amount.text)} - {None}
    if units <= _METRIC:
        return
    factor, unit = _SHOWN.get(amount.base, (1.0, amount.base))
    how = "weighed in grams" if unit == "g" else "measured in millilitres"
    meant = f"{factor * amount.number:.3g} {unit}, if so much is meant"
    raise line.error(f'"{amount.text}" of {what}, which is {how}', meant, at=amount)


def refuse_guessed_chemicals(line: Line, known: bool) -> None:
    """Refuse a line of finings and spices that is a chemical by the spoon, or an acid that nobody knows a dose of."""
    name, amount = line.name.value, line.amount
    if not is_chemical(name):
        return
    of_acid = "acid" in VOCABULARIES["acids"].words(name)
    if not known and of_acid:
        raise line.error(
            f'nobody here knows a dose of "{name}"',
            "an acid of the pantry under water, or a record of it in pantry/finings.yaml",
            at=line.name,
        )
    if amount is None or (amount.base != "kg" and not (of_acid and amount.base == "L")):
        what = f'"{amount.text}" of a chemical is a guess' if amount else f"no amount of {name}"
        raise line.error(what, "its weight, as 5 g", at=amount)
    refuse_other_than_metric(amount, "a chemical", line)
