"""What bottles are primed with, by its name: a sugar of the pantry, honey or a syrup, or dried malt extract."""

from collections.abc import Mapping
from dataclasses import replace

from gristbook.model.packing import PrimingSugar, Solids
from gristbook.pantry.pantry import ours
from gristbook.pantry.records import Extract, Sugar
from gristbook.reading.line import Line
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Text
from gristbook.sheet.value import Value
from gristbook.text.values import Desk, from_pantry

SOLD_AS: Mapping[str, str] = {record.name: record.sold_as for record in ours("sugars").records if record.sold_as}
"""What a shop, and so a recipe, calls our sugars whose names are a chemist's."""
ANY_EXTRACT, UNSAID = "dried malt extract", "Dried malt extract, light"
"""Malt extract of which nobody says the colour, and what is then reckoned with and bought."""
PRIMERS = ", ".join(SOLD_AS.get(sugar.name, sugar.name.casefold()) for sugar in ours("sugars").records if sugar.formula)
PRIMERS = f"{PRIMERS}, honey or {ANY_EXTRACT}"
"""All that primes, in words."""
SUCROSE = next(it for it in ours("sugars").records if it.sold_as == "table sugar")
TABLE_SUGAR = PrimingSugar(SUCROSE.name, SUCROSE.sold_as, SUCROSE.formula)
"""What "sugar" is, and what is taken where nobody says what primes."""


def read_priming_sugar(named: Text, line: Line, desk: Desk) -> PrimingSugar:
    """What primes, of the pantry; `Unreadable` where nobody can say how much gas it gives."""
    if named.word == "sugar":
        return TABLE_SUGAR
    match, extracts = desk.pantry.sugars.look_up(named.value), desk.pantry.extracts.look_up(named.value).found
    if match.usual:
        line.warning(f'"{named.value}" may be several: {match.usual.sold_as} is taken', PRIMERS, at=named)
    if (sugar := match.usual or match.only) is not None:
        if sugar.formula and sugar.fermentable.typical == 1:
            return PrimingSugar(sugar.name, sugar.sold_as or sugar.name.casefold(), sugar.formula)
        if sugar.fermentable.typical > 0:
            return _by_share(sugar, named, line)
    if extracts and all(extract.kind == "dried" for extract in extracts):
        if len(extracts) == 1:
            return _by_extract(extracts[0], extracts[0].name.casefold().replace(",", ""))
        return _by_extract(next(one for one in desk.pantry.extracts.records if one.name == UNSAID), ANY_EXTRACT)
    near = "" if match.only else match.nearest
    raise line.error(f'nobody can say how much gas "{named.value}" gives', PRIMERS, at=named, suggestion=near)


def by_the_spoon(read: Quantity, sugar: PrimingSugar, line: Line, desk: Desk) -> Quantity:
    """A cup or spoon of what primes, by its weight: nine in ten of them weigh what the pantry's densities say."""
    density = next(
        (
            it.density
            for shelf in (desk.pantry.sugars, desk.pantry.extracts)
            for it in shelf.records
            if it.name == sugar.name
        ),
        None,
    )
    if density is None:
        raise line.error(f"a spoon or cup of {sugar.called} has no known weight", "its weight, as 120 g", at=read)
    kilos, half = read.number * density.typical / 1000, read.number * (density.high - density.low) / 2000
    line.warning(f"{read.text} of {sugar.called} is taken as {1000 * kilos:.3g} g", "its weight", at=read)
    return replace(read, number=kilos, base="kg", tolerance=half)


def _by_share(sugar: Sugar, named: Text, line: Line) -> PrimingSugar:
    """A sugar, a syrup or honey that ferments in part: that part is taken for the sugar that gives most gas."""
    share = (_share(sugar)).called(f"share of {sugar.name} that ferments")
    line.warning(f"{named.value} gives gas by what the pantry knows of it, {100 * share.number:.0f} % sugar: a guide")
    return PrimingSugar(sugar.name, named.word, SUCROSE.formula, share)


def _share(sugar: Sugar) -> Value:
    """What of a sugar, as it is weighed, ferments."""
    dry = from_pantry(sugar.extract, f"extract of {sugar.name}")
    wet = from_pantry(sugar.moisture, f"moisture of {sugar.name}")
    ferments = from_pantry(sugar.fermentable, f"what ferments of {sugar.name}")
    return (dry - dry * wet) * ferments


def _by_extract(extract: Extract, called: str) -> PrimingSugar:
    solids = Solids(
        extract_dry=from_pantry(extract.extract, f"extract of {extract.name}"),
        moisture=from_pantry(extract.moisture, f"moisture of {extract.name}"),
        attenuation=from_pantry(extract.attenuation, f"attenuation of {extract.name}"),
    )
    return PrimingSugar(extract.name, called, solids)
