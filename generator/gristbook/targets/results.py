"""What the chain of equations gives, phenomenon by phenomenon."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.recipe import Malt, Sugar
from gristbook.model.steps import MashStep
from gristbook.model.yeast import Yeast
from gristbook.sheet.value import Value
from gristbook.targets.water.results import WaterChemistry


@dataclass(frozen=True, slots=True)
class MaltFigures:
    """A malt in this brew: its weight (kg), its extract in the kettle (kg), its shares by weight and by extract."""

    malt: Malt
    mass: Value
    extract: Value
    colour: Value
    share_by_weight: Value
    share_by_extract: Value


@dataclass(frozen=True, slots=True)
class SugarFigures:
    """A sugar or malt extract in this brew: weight (kg), extract (kg), shares of the whole grist."""

    sugar: Sugar
    mass: Value
    extract: Value
    share_by_weight: Value
    share_by_extract: Value


@dataclass(frozen=True, slots=True)
class Roles:
    """Shares of the grist by weight, by what they are there for, and the mean diastatic power of what is mashed."""

    base: Value | None
    specialty: Value | None
    adjunct: Value | None
    sugar: Value | None
    diastatic_power: Value | None
    windisch_kolbach: Value | None


@dataclass(frozen=True, slots=True)
class Grist:
    """All that brings extract. ``extract`` is what the kettle holds at the end of the boil."""

    malts: tuple[MaltFigures, ...]
    sugars: tuple[SugarFigures, ...]
    mashed: Value | None
    steeped: Value | None
    extract: Value
    roles: Roles


@dataclass(frozen=True, slots=True)
class Volumes:
    """Litres at 20 °C unless hot; ``fermenting`` is what is ``into_fermenter`` with the juice of ``fruit``."""

    batch: Value
    boil: Value
    boil_hot: Value
    end_of_boil: Value
    end_of_boil_hot: Value
    left_in_kettle: Value
    top_up: Value | None
    into_fermenter: Value
    fruit: Value | None
    fermenting: Value
    packaged: Value


@dataclass(frozen=True, slots=True)
class Wort:
    """Gravities of the wort, and what became of the malt's extract.

    ``equivalent_original`` differs from the original gravity only where sugar goes into the fermenter.
    """

    before_the_boil: Value
    after_the_boil: Value
    original: Value
    original_plato: Value
    equivalent_original: Value
    equivalent_original_plato: Value
    extract_in_fermenter: Value
    mash_efficiency: Value | None
    brewhouse_efficiency: Value | None


@dataclass(frozen=True, slots=True)
class Fermentation:
    """What the yeast makes of it. Attenuations are fractions, strengths per cent; before priming.

    ``strengths`` is by volume after each published relation, this book's own first; ``fruit_acid`` is in a litre.
    """

    real_attenuation: Value
    apparent_attenuation: Value
    real_extract: Value
    apparent_extract: Value
    final: Value
    abw: Value
    abv: Value
    degree_of_fermentation: Value
    strengths: tuple[tuple[str, Value], ...]
    fruit_acid: Value | None


@dataclass(frozen=True, slots=True)
class Serving:
    """Energy (kcal, kJ) and carbohydrate (g) of a small bottle; ``models`` has the energy by every method."""

    kilocalories: Value
    kilojoules: Value
    carbohydrate: Value
    models: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class HopFigures:
    """One addition: weight (g), its alpha acids left (fraction), minutes that count, share that ends up bitter, IBU."""

    hop: Hop
    mass: Value
    alpha: Value
    minutes: Value | None
    utilisation: Value | None
    bitterness: Value


@dataclass(frozen=True, slots=True)
class KitFigures:
    """A hopped extract and the bitterness it brings."""

    kit: HoppedKit
    bitterness: Value


@dataclass(frozen=True, slots=True)
class Bitterness:
    """Bitterness by addition and in all, by the book's model; ``models`` has the total by every model.

    ``gain_in_stand`` is what a hot stand adds to hops that are in the kettle already; it is not in the total.
    ``hopping_rate`` is the factor that all additions are divided by, where the book's model has one.
    """

    hops: tuple[HopFigures, ...]
    kits: tuple[KitFigures, ...]
    total: Value
    balance: Value
    late_hops: Value | None
    gain_in_stand: Value | None
    hopping_rate: Value | None
    models: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Colour:
    """The beer's colour by the book's model; ``models`` has every model that covers it."""

    malt_colour: Value
    srm: Value
    ebc: Value
    models: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest of the mash and how it is reached: boiling water to add (L; ``needed`` by the
    balance of heat), mash to draw and boil (L), or by heating; ``enzymes`` are those at their best, by any source."""

    step: MashStep
    infusion: Value | None
    needed: Value | None
    decoction: Value | None
    enzymes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mash:
    """Water and heat for the mash. ``water`` and ``strike`` belong to the first rest, ``rests`` to all in order.

    ``volume`` is the room that the mash takes when all the water is in it; ``first_plato`` is the first runnings in °P;
    ``conversion`` is the share of the extract that dissolves, and ``lauter`` the share of that which runs off.
    """

    grist: Value
    thickness: Value
    water: Value
    sparge: Value | None
    strike: Value
    volume: Value
    absorbed: Value
    rests: tuple[Rest, ...]
    first_plato: Value
    first_runnings: Value
    conversion: Value
    lauter: Value


@dataclass(frozen=True, slots=True)
class Water:
    """All the brewing water, and the water of a steep."""

    total: Value
    steep: Value | None


@dataclass(frozen=True, slots=True)
class Cooling:
    """Topping up with cold water: its temperature, what boiling wort comes to with it, how cool the wort should be.

    ``ice`` (kg) in place of as much of the water brings boiling wort to the yeast's temperature, where that can be.
    """

    cold: Value
    if_boiling: Value
    cool_to: Value
    ice: Value | None


@dataclass(frozen=True, slots=True)
class Starter:
    """A pack of liquid yeast grown first: the starter's wort (L), its dried extract (g), cells standing and stirred."""

    steps: int
    volume: Value
    extract: Value
    standing: Value
    stirred: Value


@dataclass(frozen=True, slots=True)
class YeastFigures:
    """One yeast and how much of it: packs and the rate of their cells, or grams of dried yeast and the dose (g/L)."""

    yeast: Yeast
    amount: Value
    cells: Value
    rate: Value | None
    dose: Value | None


@dataclass(frozen=True, slots=True)
class Pitch:
    """Cells that the wort wants, packs of liquid yeast that hold them, and what the recipe gives.

    ``starters`` is empty where the yeast is dried.
    """

    rate: Value
    cells: Value
    packs: Value
    starters: tuple[Starter, ...]
    yeasts: tuple[YeastFigures, ...]


@dataclass(frozen=True, slots=True)
class Packaging:
    """Gas and priming. ``sugar`` (g) and ``added_alcohol`` (% by volume) only where bottles are primed, and
    ``fruit_gas`` where fruit goes in with the sugar.

    ``gas_if_unfinished`` and ``pressure_if_unfinished`` are what comes of a beer bottled four points too soon, and
    only bottles have them; the pressure in warm storage is that of a bottle or of a keg; ``keg_pressures`` go by
    serving temperature, ``bottles`` by size (L); ``fresh_yeast`` (g) is for a strong beer, or one long in the cold.
    ``told`` is the sugar (g/L) that the recipe speaks of, where it says the gas as well.
    """

    volumes: Value
    residual: Value
    fruit_gas: Value | None
    sugar: Value | None
    sugar_per_litre: Value | None
    added_alcohol: Value | None
    packaged_abv: Value
    pressure_warm: Value | None
    keg_pressure_warm: Value | None
    gas_if_unfinished: Value | None
    pressure_if_unfinished: Value | None
    keg_pressures: tuple[tuple[Value, Value], ...]
    bottles: tuple[tuple[Value, Value], ...]
    ready: Value
    fresh_yeast: Value | None
    told: Value | None


@dataclass(frozen=True, slots=True)
class Readings:
    """What the instruments should show: a hydrometer in warm wort, a refractometer before and after fermentation."""

    hydrometer: tuple[tuple[Value, Value], ...]
    refractometer_before: Value
    refractometer_after: Value


@dataclass(frozen=True, slots=True)
class Figures:
    """Everything that the chain works out for one recipe in one brewhouse."""

    grist: Grist
    volumes: Volumes
    wort: Wort
    fermentation: Fermentation
    bitterness: Bitterness
    colour: Colour
    mash: Mash | None
    water: Water
    cooling: Cooling | None
    pitch: Pitch | None
    packaging: Packaging | None
    serving: Serving
    readings: Readings
    chemistry: WaterChemistry | None
