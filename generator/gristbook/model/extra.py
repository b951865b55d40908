"""Finings, spices and whatever else goes into a beer."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.model.brings import UNKNOWN, Brings
from gristbook.model.moment import Moment
from gristbook.problems import Place
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Bounds:
    """How much of a thing is usual and how much is too much, in grams in a litre of the batch.

    ``each_g`` is the weight of one kilogram, litre or piece of it, as its amount is kept; ``why`` says what too much
    does, ``standing`` who says so.
    """

    usual: float
    most: float
    each_g: float
    why: str
    standing: str


@dataclass(frozen=True, slots=True)
class Extra:
    """A fining, a spice: an amount of a thing at a time; what is not ``known`` is not in the pantry.

    ``amount`` is in kg, L or pieces as it was written; ``written`` the author's own words for it, ``counted`` what of
    them is no number ("sticks"), and
    ``moment_written`` those for its ``moment``, which is `None` where nobody says when; ``said`` is what no figure
    counts, and ``note`` what else its line says; without ``bounds`` nobody knows how much of it is much; a ``spirit``
    brings alcohol.
    """

    name: str
    amount: Value | None
    written: str
    moment: Moment | None
    moment_written: str
    purpose: str
    bounds: Bounds | None
    place: Place
    brings: Brings = UNKNOWN
    known: bool = True
    said: str = ""
    note: str = ""
    spirit: bool = False
    counted: str = ""
