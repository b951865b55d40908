"""A set of vessels and what it does to a brew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gristbook.model.water import WaterSource
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Brewhouse:
    """Volumes in litres at 20 °C; ``tun_heat`` is the tun's heat as litres of water; vessels' sizes are to the brim.

    ``water`` is what runs from the tap, `None` where nobody names it.
    An ``efficiency`` is that of an ordinary grist, which makes its batch a wort of ``ordinary_gravity``. Without one (a
    bag whose author states none) ``conversion`` says what the mash dissolves.
    ``learns`` names the fields here that the book's batches teach; what stands in them is what was thought before;
    "attenuation", which each yeast has for itself, may be among them.
    """

    name: str
    batch: Value
    efficiency: Value | None
    ordinary_gravity: Value
    conversion: Value
    steep_yield: Value
    boil_off: Value
    left_in_kettle: Value
    left_in_fermenter: Value
    absorption: Value
    thickness: Value
    grain_temperature: Value
    tun_heat: Value
    tun: Value | None
    kettle: Value | None
    fermenter: Value | None
    altitude: Value
    mash: Literal["sparge", "bag", "none"]
    water: WaterSource | None
    learns: tuple[str, ...]
