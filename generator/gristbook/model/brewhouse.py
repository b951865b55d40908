"""A set of vessels and what it does to a brew."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from gristbook.model.water import WaterSource
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value

SURFACE = 2 / 3
"""The power of what a pot holds by which the surface goes of one of the same shape, and with it what steams away."""


@dataclass(frozen=True, slots=True)
class Brewhouse:
    """Volumes in litres at 20 °C; ``tun_heat`` is the tun's heat as litres of water; vessels' sizes are to the brim.

    ``water`` is what runs from the tap, `None` where nobody names it.
    An ``efficiency`` is that of an ordinary grist, which makes its batch a wort of ``ordinary_gravity``. Without one (a
    bag whose author states none) ``conversion`` says what the mash dissolves.
    ``learns`` names the fields here that the book's batches teach; what stands in them is what was thought before;
    "attenuation", which each yeast has for itself, may be among them. ``assumed`` vessels nobody described at all;
    ``usual`` is the same set for the same batch as it is where nobody says more of it, `None` for one that is that.
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
    assumed: bool = False
    usual: Brewhouse | None = None

    def holding(self, batch: Value) -> Brewhouse:
        """The vessels for a batch: what is assumed fits it, and what somebody has stays as it is."""
        if batch.number == self.batch.number:
            return self
        fit = self.grown(batch.number / self.batch.number)
        return replace(fit, batch=replace(self.batch, number=batch.number)) if self.assumed else fit

    @property
    def unsaid(self) -> tuple[str, ...]:
        """What it keeps and what steams away, where nobody says it and it goes with the batch."""
        kept = (self.boil_off, self.left_in_kettle, self.left_in_fermenter)
        return tuple(it.label for it in kept if isinstance(it.origin, Given) and it.origin.by is By.DEFAULT)

    def grown(self, times: float) -> Brewhouse:
        """The same with what it keeps by default grown to a batch that is so many times as large."""
        return replace(
            self,
            left_in_kettle=_grown(self.left_in_kettle, times),
            left_in_fermenter=_grown(self.left_in_fermenter, times),
            boil_off=_grown(self.boil_off, times**SURFACE),
        )


GROWN = ", grown with the batch"


def _grown(value: Value, times: float) -> Value:
    origin = value.origin
    if not isinstance(origin, Given) or origin.by is not By.DEFAULT:
        return value
    ends = origin.ends and (times * origin.ends[0], times * origin.ends[1])
    words = f"{origin.words.removesuffix(GROWN)}{GROWN}"
    return replace(value, number=float(f"{times * value.number:.3g}"), origin=replace(origin, words=words, ends=ends))
