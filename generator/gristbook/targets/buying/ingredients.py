"""What follows from the pantry's figures of an ingredient, by the equations that the plan of a brew rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from gristbook.equations import colour, extract, hop_storage, starter, yield_units
from gristbook.model.larder import Ingredient
from gristbook.pantry.pantry import ours
from gristbook.sheet.value import Value, apply, given
from gristbook.targets.conventions import AIRTIGHT, ALIVE_AT_THIRTY_DAYS, PRACTICE
from gristbook.targets.models import COLOUR, covers
from gristbook.targets.wort.grist import malt_colour

WHOLE_GRIST = given(3.9, "kg", "a whole grist", words=f"{PRACTICE}: for 20 L of 1.045")
DOSE = given(0.1, "fraction", "share of the grist", words="the same of everything, to compare it by")
WORT = given(20.0, "L", "wort that it colours", words="a batch of ordinary size")
CURVED = "morey 1995"
"""The model of colour that also holds for pale worts."""

_SHARES: Mapping[str, tuple[float, float, float]] = {
    "base": (0.90, 0.50, 1.00),
    "smoked": (0.30, 0.05, 1.00),
    "kilned": (0.10, 0.03, 0.30),
    "caramel": (0.06, 0.02, 0.12),
    "roast": (0.04, 0.01, 0.08),
    "flaked": (0.10, 0.05, 0.20),
    "torrefied": (0.08, 0.03, 0.15),
    "raw": (0.20, 0.10, 0.40),
    "sugar": (0.08, 0.03, 0.20),
    "syrup": (0.08, 0.03, 0.20),
    "dried": (0.70, 0.10, 0.80),
    "liquid": (0.85, 0.10, 0.95),
}
"""Usual share of a grist, low and high, by kind, for what the pantry says nothing of; malt extract as most of it."""

SIX_MONTHS = given(180.0, "d", "time in store", words="an example: six months")
STORES = tuple(
    given(celsius, "°C", where, words="an example")
    for celsius, where in ((20.0, "a kitchen cupboard"), (4.0, "a refrigerator"), (-18.0, "a freezer"))
)
AGES = tuple(
    given(30.0 * months, "d", f"age of a pack, {words}", words="an example")
    for months, words in enumerate(("fresh", "one month", "two months", "three months", "four months"))
)


@dataclass(frozen=True, slots=True)
class Extract:
    """What a malt, a sugar or a malt extract brings as it is weighed: the potential, also in the trade's other ways.

    ``coarse`` and ``coarse_noonan`` are of malt ground as a brewer grinds it, where its analysis says what that costs.
    """

    potential: Value
    points: Value
    litre_degrees: Value
    coarse: Value | None
    coarse_noonan: Value | None


@dataclass(frozen=True, slots=True)
class Tint:
    """The colour of a beer with a tenth of it, the rest pilsner malt."""

    srm: Value
    ebc: Value


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that is worked out of one ingredient; what does not belong to its shelf is absent.

    ``kept`` is each store with the alpha acids that a time in it leaves, ``alive`` each age of a liquid pack with the
    share of its cells that live.
    """

    extract: Extract | None = None
    tint: Tint | None = None
    alpha: Value | None = None
    kept: tuple[tuple[Value, Value], ...] = ()
    alive: tuple[tuple[Value, Value], ...] = ()


def sheet_of(it: Ingredient, colour_model: str) -> Sheet:
    """The sheet of an ingredient; ``colour_model`` is the book's."""
    if it.shelf in ("malts", "sugars", "extracts"):
        return Sheet(extract=_extract(it), tint=_tint(it, colour_model))
    if it.shelf == "hops":
        return Sheet(alpha=it.figures["alpha"], kept=tuple((store, _left(it, store)) for store in STORES))
    if it.shelf == "yeasts":
        return Sheet(alive=tuple((age, _alive(age)) for age in AGES))
    return Sheet()


def _extract(it: Ingredient) -> Extract:
    dry, moisture = it.figures["extract"], it.figures["moisture"]
    potential = apply(extract.as_is_potential, f"potential of {it.name}", fine_grind_dry_basis=dry, moisture=moisture)
    return Extract(
        potential,
        apply(yield_units.points_per_pound_gallon, "points from a pound in a US gallon", potential=potential),
        apply(yield_units.litre_degrees_per_kg, "litre-degrees from a kilogram", potential=potential),
        *_coarse(it, dry, moisture),
    )


def _coarse(it: Ingredient, dry: Value, moisture: Value) -> tuple[Value, Value] | tuple[None, None]:
    less = it.figures.get("fine-coarse difference")
    if less is None:
        return None, None

    def ground(label: str, moisture: Value | float) -> Value:
        return apply(
            extract.coarse_as_is, label, fine_grind_dry_basis=dry, fine_coarse_difference=less, moisture=moisture
        )

    noonan = apply(
        extract.as_is_noonan,
        "potential, coarse grind, after Noonan",
        coarse_grind_dry_basis=ground("extract, coarse grind, dry basis", 0.0),
        moisture=moisture,
    )
    return ground("potential, coarse grind", moisture), noonan


def usual_share(it: Ingredient) -> Value:
    """The share of a grist that it usually makes: the pantry's, or else that of its kind."""
    stated = it.figures.get("usual share")
    if stated is not None:
        return stated
    typical, low, high = _SHARES[it.words["kind"]]
    label = f"usual share of {it.name}"
    return given(typical, "fraction", label, words=f"{PRACTICE}, by its kind", ends=(low - typical, high - typical))


def _tint(it: Ingredient, colour_model: str) -> Tint:
    srm = tint(it.figures["colour"], it.name, colour_model)
    return Tint(srm, apply(colour.ebc_from_srm, "colour of a beer with a tenth of it, EBC", colour=srm))


def tint(written: Value, name: str, colour_model: str = CURVED) -> Value:
    """The colour of a beer of 1.045 with a tenth of a thing of this colour, the rest pilsner malt (SRM)."""
    mass = (WHOLE_GRIST * DOSE).called(f"weight of {name}")
    rest = (WHOLE_GRIST - mass).called("weight of pilsner malt")
    colours = malt_colour(written), _pale()
    units = apply(colour.malt_colour_units, "malt colour", masses_kg=(mass, rest), colours=colours, wort_l=WORT)
    model = colour_model if covers(colour_model, units.number) else CURVED
    return apply(COLOUR[model], f"colour of a beer with a tenth of {name}", colour=units)


@cache
def _pale() -> Value:
    """The colour of the malt that bears least of its own."""
    pale = next(malt for malt in ours("malts").records if malt.name == "Pilsner malt")
    return given(pale.colour.typical, "°L", "colour of pilsner malt", words=f"the pantry: {pale.source}")


def _left(it: Ingredient, store: Value) -> Value:
    faster = apply(hop_storage.storage_temperature_factor, f"how fast hops age in {store.label}", temperature=store)
    return apply(
        hop_storage.alpha_left,
        f"alpha acids after six months in {store.label}",
        alpha=it.figures["alpha"],
        lost_in_six_months=it.figures["lost in six months"],
        temperature_factor=faster,
        storage_factor=AIRTIGHT,
        days=SIX_MONTHS,
    )


def _alive(age: Value) -> Value:
    label = age.label.replace("age of a pack", "share of a pack that is alive")
    return apply(starter.viability, label, days=age, at_thirty_days=ALIVE_AT_THIRTY_DAYS)
