"""What bottles are primed with, by its name: a sugar that the pantry has a formula of, or dried malt extract."""

from collections.abc import Mapping

from gristbook.model.recipe import PrimingSugar, Solids
from gristbook.pantry.pantry import ours
from gristbook.pantry.records import Extract
from gristbook.reading.lines import Line
from gristbook.reading.tree import Text
from gristbook.text.values import Desk, from_pantry

SOLD_AS: Mapping[str, str] = {record.name: record.sold_as for record in ours("sugars").records if record.sold_as}
"""What a shop, and so a recipe, calls our sugars whose names are a chemist's."""
ANY_EXTRACT, UNSAID = "dried malt extract", "Dried malt extract, light"
"""Malt extract of which nobody says the colour, and what is then reckoned with and bought."""
PRIMERS = ", ".join(SOLD_AS.get(sugar.name, sugar.name.casefold()) for sugar in ours("sugars").records if sugar.formula)
PRIMERS = f"{PRIMERS} or {ANY_EXTRACT}"
"""All that primes, in words."""


def read_priming_sugar(named: Text, line: Line, desk: Desk) -> PrimingSugar:
    """What primes, of the pantry; `Unreadable` where nobody can say how much gas it gives."""
    match, extracts = desk.pantry.sugars.look_up(named.value), desk.pantry.extracts.look_up(named.value).found
    if match.only and match.only.formula and match.only.fermentable.typical == 1:
        sugar = match.only
        return PrimingSugar(sugar.name, sugar.sold_as or sugar.name.casefold(), sugar.formula)
    if extracts and all(extract.kind == "dried" for extract in extracts):
        if len(extracts) == 1:
            return _by_extract(extracts[0], extracts[0].name.casefold().replace(",", ""))
        return _by_extract(next(one for one in desk.pantry.extracts.records if one.name == UNSAID), ANY_EXTRACT)
    near = "" if match.only else match.nearest
    raise line.error(f'nobody can say how much gas "{named.value}" gives', PRIMERS, at=named, suggestion=near)


def _by_extract(extract: Extract, called: str) -> PrimingSugar:
    solids = Solids(
        extract_dry=from_pantry(extract.extract, f"extract of {extract.name}"),
        moisture=from_pantry(extract.moisture, f"moisture of {extract.name}"),
        attenuation=from_pantry(extract.attenuation, f"attenuation of {extract.name}"),
    )
    return PrimingSugar(extract.name, called, solids)
