"""Yeast as a recipe writes it."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.model.amount import Named
from gristbook.model.brings import UNKNOWN, Brings
from gristbook.model.moment import BeforeTheBoil, Moment
from gristbook.problems import Place
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Yeast(Named):
    """One yeast. ``amount`` in g (dried) or packs; `None` means as many as the plan says.

    ``attenuation`` is apparent, and ``usual_attenuation`` what its family reaches, from the least to the most;
    ``kind`` is "ale", "lager" or "other"; ``diastatic`` whether it may go on to ferment dextrins;
    ``age`` the days from its making to the recipe's date, where the line says when it was made; ``pitch_rate`` the
    million cells for a millilitre and °P that the line, or else its family, asks for itself;
    ``called`` the word for yeast of an earlier brew, as "slurry", whose amount is in mL; ``starter`` the wort (L) that
    it is grown in first; ``moment`` when it goes in, `None` where that is at pitching; ``bacteria`` make acid, of which
    nothing is reckoned.
    """

    amount: Value | None
    dried: bool
    age: Value | None
    attenuation: Value
    usual_attenuation: tuple[float, float]
    diastatic: bool
    kind: str
    coolest_c: float
    warmest_c: float
    tolerance_abv: float
    place: Place
    brings: Brings = UNKNOWN
    pitch_rate: Value | None = None
    called: str = ""
    starter: Value | None = None
    moment: Moment | BeforeTheBoil | None = None
    bacteria: bool = False

    @property
    def leaves_nothing(self) -> bool:
        """Whether it is taken to go on until the beer has the gravity of water, whatever the mash left."""
        return self.diastatic and self.attenuation.number >= 1

    @property
    def form(self) -> str:
        """In what form it comes, in a word."""
        return self.called or ("dried" if self.dried else "liquid")
