"""What the chain of equations gives, phenomenon by phenomenon.

Every record is generic in its number: `Value` for pages, `float` for solving and for Monte Carlo runs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from gristbook.model.recipe import Hop, HoppedKit, Malt, MashStep, Sugar, Yeast
from gristbook.targets.water_results import WaterChemistry
from gristbook.worksheet import N, Value


@dataclass(frozen=True, slots=True)
class MaltFigures(Generic[N]):
    """A malt in this brew: its weight (kg), its extract in the kettle (kg), its shares by weight and by extract."""

    malt: Malt
    mass: N | Value
    extract: N
    colour: N | Value
    share_by_weight: N
    share_by_extract: N


@dataclass(frozen=True, slots=True)
class SugarFigures(Generic[N]):
    """A sugar or malt extract in this brew: weight (kg), extract (kg), shares of the whole grist."""

    sugar: Sugar
    mass: N | Value
    extract: N
    share_by_weight: N
    share_by_extract: N


@dataclass(frozen=True, slots=True)
class Roles(Generic[N]):
    """Shares of the grist by weight, by what they are there for, and the mean diastatic power of what is mashed."""

    base: N | None
    specialty: N | None
    adjunct: N | None
    sugar: N | None
    diastatic_power: N | None
    windisch_kolbach: N | None


@dataclass(frozen=True, slots=True)
class Grist(Generic[N]):
    """All that brings extract. ``extract`` is what the kettle holds at the end of the boil."""

    malts: tuple[MaltFigures[N], ...]
    sugars: tuple[SugarFigures[N], ...]
    mashed: N | None
    steeped: N | None
    extract: N
    roles: Roles[N]


@dataclass(frozen=True, slots=True)
class Volumes(Generic[N]):
    """The volume chain, litres at 20 °C unless hot. ``top_up`` is water added in the fermenter."""

    batch: N | Value
    boil: N | Value
    boil_hot: N
    end_of_boil: N
    end_of_boil_hot: N
    left_in_kettle: N | Value
    top_up: N | None
    into_fermenter: N
    packaged: N


@dataclass(frozen=True, slots=True)
class Wort(Generic[N]):
    """Gravities of the wort, and what became of the malt's extract.

    ``equivalent_original`` differs from the original gravity only where sugar goes into the fermenter.
    """

    before_the_boil: N
    after_the_boil: N
    original: N
    original_plato: N
    equivalent_original: N
    equivalent_original_plato: N
    extract_in_fermenter: N
    mash_efficiency: N | Value | None
    brewhouse_efficiency: N | None


@dataclass(frozen=True, slots=True)
class Fermentation(Generic[N]):
    """What the yeast makes of it. Attenuations are fractions, strengths per cent; before priming.

    ``strengths`` is the strength by volume after each published relation, this book's own first.
    """

    real_attenuation: N
    apparent_attenuation: N
    real_extract: N
    apparent_extract: N
    final: N
    abw: N
    abv: N
    degree_of_fermentation: N
    strengths: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class Serving(Generic[N]):
    """Energy (kcal, kJ) and carbohydrate (g) of a small bottle; ``models`` has the energy by every method."""

    kilocalories: N
    kilojoules: N
    carbohydrate: N
    models: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class HopFigures(Generic[N]):
    """One addition of hops: weight (g), the alpha acids that are left in it (fraction), the minutes that count, the
    share of the alpha acids that ends up bitter, IBU.
    """

    hop: Hop
    mass: N | Value
    alpha: N | Value
    minutes: N | None
    utilisation: N | None
    bitterness: N


@dataclass(frozen=True, slots=True)
class KitFigures(Generic[N]):
    """A hopped extract and the bitterness it brings."""

    kit: HoppedKit
    bitterness: N


@dataclass(frozen=True, slots=True)
class Bitterness(Generic[N]):
    """Bitterness by addition and in all, by the book's model; ``models`` has the total by every model.

    ``gain_in_stand`` is what a hot stand adds to hops that are in the kettle already; it is not in the total.
    ``hopping_rate`` is the factor that all additions are divided by, where the book's model has one.
    """

    hops: tuple[HopFigures[N], ...]
    kits: tuple[KitFigures[N], ...]
    total: N
    balance: N
    late_hops: N | None
    gain_in_stand: N | None
    hopping_rate: N | None
    models: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class Colour(Generic[N]):
    """The beer's colour by the book's model; ``models`` has every model that covers it."""

    malt_colour: N
    srm: N
    ebc: N
    models: tuple[tuple[str, N], ...]


@dataclass(frozen=True, slots=True)
class Rest(Generic[N]):
    """A rest of the mash and how it is reached: boiling water to add (L), mash to draw and boil (L), or by heating.

    ``enzymes`` are those at their best at its temperature, by any of the sources.
    """

    step: MashStep
    infusion: N | Value | None
    decoction: N | None
    enzymes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mash(Generic[N]):
    """Water and heat for the mash. ``water`` and ``strike`` belong to the first rest, ``rests`` to all in order.

    ``volume`` is the room that the mash takes when all the water is in it; ``first_plato`` is the first runnings in °P;
    ``sparged`` the mash efficiency of a sparge in one more batch, `None` where nothing is sparged.
    """

    grist: N
    thickness: N
    water: N | Value
    sparge: N | None
    strike: N
    volume: N
    absorbed: N
    rests: tuple[Rest[N], ...]
    first_plato: N
    first_runnings: N
    sparged: N | None


@dataclass(frozen=True, slots=True)
class Water(Generic[N]):
    """All the brewing water, and the water of a steep."""

    total: N
    steep: N | None


@dataclass(frozen=True, slots=True)
class Cooling(Generic[N]):
    """Topping up with cold water: its temperature, what boiling wort comes to with it, how cool the wort should be.

    ``ice`` (kg) in place of as much of the water brings boiling wort to the yeast's temperature, where that can be.
    """

    cold: N | Value
    if_boiling: N
    cool_to: N
    ice: N | None


@dataclass(frozen=True, slots=True)
class Starter(Generic[N]):
    """A pack of liquid yeast grown first: the starter's wort (L), its dried extract (g), cells standing and stirred."""

    steps: int
    volume: N | Value
    extract: N
    standing: N
    stirred: N


@dataclass(frozen=True, slots=True)
class YeastFigures(Generic[N]):
    """One yeast and how much of it: packs and the rate of their cells, or grams of dried yeast and the dose (g/L)."""

    yeast: Yeast
    amount: N | Value
    cells: N
    rate: N | None
    dose: N | None


@dataclass(frozen=True, slots=True)
class Pitch(Generic[N]):
    """Cells that the wort wants, packs of liquid yeast that hold them, and what the recipe gives.

    ``starters`` is empty where the yeast is dried.
    """

    rate: N | Value
    cells: N
    packs: N
    starters: tuple[Starter[N], ...]
    yeasts: tuple[YeastFigures[N], ...]


@dataclass(frozen=True, slots=True)
class Packaging(Generic[N]):
    """Gas and priming. ``sugar`` (g) and ``added_alcohol`` (% by volume) only where bottles are primed.

    ``gas_if_unfinished`` and ``pressure_if_unfinished`` are what comes of a beer bottled four points too soon, and
    only bottles have them; the pressure in warm storage is that of a bottle or of a keg;
    ``keg_pressures`` go by serving temperature; ``bottles`` by their size (L).
    """

    volumes: N | Value
    residual: N
    sugar: N | None
    sugar_per_litre: N | None
    added_alcohol: N | None
    packaged_abv: N
    pressure_warm: N | None
    keg_pressure_warm: N | None
    gas_if_unfinished: N | None
    pressure_if_unfinished: N | None
    keg_pressures: tuple[tuple[Value, N], ...]
    bottles: tuple[tuple[Value, N], ...]
    ready: N


@dataclass(frozen=True, slots=True)
class Readings(Generic[N]):
    """What the instruments should show: a hydrometer in warm wort, a refractometer before and after fermentation."""

    hydrometer: tuple[tuple[Value, N], ...]
    refractometer_before: N
    refractometer_after: N


@dataclass(frozen=True, slots=True)
class Figures(Generic[N]):
    """Everything that the chain works out for one recipe in one brewhouse."""

    grist: Grist[N]
    volumes: Volumes[N]
    wort: Wort[N]
    fermentation: Fermentation[N]
    bitterness: Bitterness[N]
    colour: Colour[N]
    mash: Mash[N] | None
    water: Water[N]
    cooling: Cooling[N] | None
    pitch: Pitch[N] | None
    packaging: Packaging[N] | None
    serving: Serving[N]
    readings: Readings[N]
    chemistry: WaterChemistry[N] | None
