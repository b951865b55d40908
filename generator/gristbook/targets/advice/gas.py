"""Gas that a vessel cannot hold: rows of limits, and the one function that reads them."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import pressure
from gristbook.model.batch import Vessel
from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value, given
from gristbook.targets.advice.against import Against
from gristbook.targets.conventions import PRACTICE, WARMEST_STORAGE
from gristbook.targets.method.step import Kind, say

ORDINARY: tuple[Vessel, ...] = ("bottles", "swing-top bottles")
HEAVY: tuple[Vessel, ...] = ("heavy bottles",)
KEGS: tuple[Vessel, ...] = ("keg",)
MEMORY = "from memory"
IN_A_KEG = "Only a keg and fittings that their makers rate for this gas."


@dataclass(frozen=True, slots=True)
class Limit:
    """A bound on what is in a vessel: above ``number``, or from there on (``reached``).

    In "vol" it is gas, as the vessel bears it in a warm cupboard; where a store is warmer than that, the pressure that
    so much gas has in the cupboard is the bound. In "bar" it is that pressure itself. ``words`` name it as {bound}.
    """

    vessels: tuple[Vessel, ...]
    number: float
    unit: str
    severity: Severity
    words: str
    short: str = "Only bottles that their maker rates for this gas."
    source: str = PRACTICE
    reached: bool = False

    def bounds(self) -> tuple[Value, ...]:
        """The bound, and where it is of gas, the pressure that it stands for."""
        stated = given(self.number, self.unit, f"bound on the gas in {self.vessels[0]}", words=self.source)
        if self.unit == "bar":
            return (stated,)
        bar = pressure.gauge_pressure(volumes=self.number, temperature=WARMEST_STORAGE.number)
        origin = f"what {self.number:g} volumes come to at {WARMEST_STORAGE.number:g} °C"
        return stated, given(bar, "bar", f"bound on the pressure in {self.vessels[0]}", words=origin)

    def met(self, volumes: float, warmest_c: float) -> Value | None:
        """The bound that so much gas in so warm a store is beyond, if any."""
        bar = pressure.gauge_pressure(volumes=volumes, temperature=warmest_c)
        found = {"vol": volumes, "bar": bar}
        for bound in self.bounds():
            if found[bound.unit] > bound.number + SLACK or (self.reached and found[bound.unit] >= bound.number):
                return bound
        return None

    def against(self, bound: Value, place: Place) -> Against:
        """What is said where a bound is met."""
        step: Kind = "keg" if self.vessels == KEGS else "bottle"
        return Against(self.severity, place, say(self.words, bound=bound), (step,), self.short, self.source)


SLACK = 1e-9

LIMITS: tuple[Limit, ...] = (
    Limit(
        ORDINARY,
        2.8,
        "vol",
        Severity.WARNING,
        "More than {bound}: a swing-top or an unmarked bottle is for this only if its maker says so.",
    ),
    Limit(
        ORDINARY,
        3.0,
        "vol",
        Severity.WARNING,
        "{bound} is the limit of an ordinary bottle: use heavy bottles that their maker rates for the pressure.",
        reached=True,
    ),
    Limit(
        ORDINARY,
        3.5,
        "vol",
        Severity.ERROR,
        "More than {bound} bursts an ordinary bottle: less gas, a cooler store, or a keg rated for the pressure.",
    ),
    Limit(
        HEAVY,
        4.0,
        "vol",
        Severity.WARNING,
        "More than {bound} is more than heavy bottles are usually filled for: ask their maker, and keep them cold.",
        source=MEMORY,
    ),
    Limit(
        HEAVY,
        5.0,
        "vol",
        Severity.ERROR,
        "More than {bound} may burst a heavy bottle: less gas, or a cooler store.",
        source=MEMORY,
    ),
    Limit(
        KEGS,
        4.0,
        "vol",
        Severity.WARNING,
        "More than {bound} is more than kegs are usually filled for: look at what is stamped on the keg, at its relief "
        "valve, and at what regulator and hoses are rated for.",
        short=IN_A_KEG,
        source=MEMORY,
    ),
    Limit(
        KEGS,
        round(130 * pressure.BAR_PER_PSI, 2),
        "bar",
        Severity.ERROR,
        "More than {bound} is above what the usual keg of a home brewery is rated for, and its maker may state less: "
        "less gas, or a cooler store.",
        short=IN_A_KEG,
        source=MEMORY,
    ),
)
"""From the lowest to the highest of each vessel. The usual keg is stamped with 130 psi."""


def beyond(volumes: float, warmest_c: float, vessel: Vessel, place: Place) -> Against | None:
    """What speaks against so much gas in a vessel that is kept so warm, by the gravest limit that it meets.

    >>> beyond(2.4, 30, "bottles", Place(""))
    """
    for limit in reversed(LIMITS):
        bound = limit.met(volumes, warmest_c) if vessel in limit.vessels else None
        if bound is not None:
            return limit.against(bound, place)
    return None


def lowest(vessel: Vessel) -> Value:
    """The bound from which on there is something to say."""
    return next(limit for limit in LIMITS if vessel in limit.vessels).bounds()[0]
