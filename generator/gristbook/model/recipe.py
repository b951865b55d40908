"""A recipe as it was written, with every number a `Value` that knows its line."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.model.amount import Share, Weighable, Weight
from gristbook.model.brings import UNKNOWN, Brings
from gristbook.model.edition import Edition
from gristbook.model.extra import Extra
from gristbook.model.fruit import Flesh
from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.moment import IN_THE_BEER, BeforePackaging, BeforeTheEnd, Moment, Stage
from gristbook.model.packing import Carbonation
from gristbook.model.steps import FermentStep, MashStep, Sparge
from gristbook.model.style import Style
from gristbook.model.water import Treatment
from gristbook.model.yeast import Yeast
from gristbook.problems import Place
from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Steep:
    """Grain steeped in hot water instead of mashed."""

    minutes: Value
    temperature: Value


@dataclass(frozen=True, slots=True)
class Malt(Weighable):
    """A malt or another grain.

    ``extract_dry`` is fine grind, dry basis (fraction), or in points or litre-degrees of the malt as it is weighed,
    where the author wrote that; ``colour`` in °L, or in EBC for malt where the author wrote that; ``diastatic_power``
    in °Lintner or °WK, `None` where nobody states it.
    """

    amount: Weight | Share
    extract_dry: Value
    moisture: Value
    colour: Value
    kind: str
    cereal: str
    diastatic_power: Value | None
    needs_mash: bool
    steep: Steep | None
    place: Place
    brings: Brings = UNKNOWN


HOPPED = ", hopped"
"""Stands behind the name of a malt extract that is bitter, so that nobody buys the plain one in its place."""


@dataclass(frozen=True, slots=True)
class Sugar(Weighable):
    """A sugar, a syrup, a malt extract or, with its ``flesh``, a fruit, whose ``extract_dry`` is as it is weighed.

    ``attenuation`` is what ferments of it, apparent of a malt extract (``from_malt``), else in real terms, and
    ``usual_attenuation`` the least and the most that is known of it. ``label`` is what a hopped extract says of its
    bitterness; being hopped is then a part of its name.
    """

    amount: Weight | Share
    extract_dry: Value
    moisture: Value
    colour: Value
    kind: str
    from_malt: bool
    attenuation: Value
    usual_attenuation: tuple[float, float]
    moment: Moment
    label: str
    place: Place
    brings: Brings = UNKNOWN
    flesh: Flesh | None = None

    @property
    def minutes(self) -> Value | None:
        """The time before the end of the boil, where it is not in the whole of it."""
        return self.moment.minutes if isinstance(self.moment, BeforeTheEnd) else None

    @property
    def into_fermenter(self) -> bool:
        """Whether it ferments without having been in the kettle."""
        return self.moment in IN_THE_BEER or self.days is not None

    @property
    def days(self) -> Value | None:
        """The time in the fermenting beer, where the recipe says it."""
        return self.moment.days if isinstance(self.moment, BeforePackaging) else None

    @property
    def pantry_name(self) -> str:
        """The pantry's own name, without the hops."""
        return self.name.removesuffix(HOPPED) if self.label else self.name


@dataclass(frozen=True, slots=True)
class Expectation:
    """A figure, by its id, that the author pins: checking the book fails when it drifts further than ``tolerance``.

    Without one it is worth a word where nine brews in ten come out elsewhere. ``base`` is the unit that the author
    wrote, in its base; "" where there is none. A figure that nobody knows is the author's words.
    """

    figure: str
    number: float
    tolerance: float | None
    base: str
    place: Place


@dataclass(frozen=True, slots=True)
class Intention:
    """Advice that the author knows and means to go against, with the reason."""

    advice: str
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class Recipe:
    """A whole recipe. ``slug`` is its address, ``prose`` Markdown that begins on ``prose_line`` of its file;
    ``original_gravity`` is a target, where it has one.

    ``editions`` are those that it adds to the book's, ``dropped`` those that it does not want.
    ``raw`` wort is not boiled, and ``still`` beer is to hold no gas, as the author says.
    """

    slug: str
    title: str
    summary: str
    date: str
    style: Style | None
    brewhouse: str
    batch: Value
    boil: Value
    kettle: Value | None
    original_gravity: Value | None
    malts: tuple[Malt, ...]
    sugars: tuple[Sugar, ...]
    hops: tuple[Hop, ...]
    kits: tuple[HoppedKit, ...]
    yeasts: tuple[Yeast, ...]
    mash: tuple[MashStep, ...]
    water: Treatment
    extras: tuple[Extra, ...]
    ferment: tuple[FermentStep, ...]
    carbonation: Carbonation | None
    expectations: tuple[Expectation, ...]
    meant: tuple[Intention, ...]
    editions: tuple[Edition, ...]
    dropped: tuple[Edition, ...]
    prose: str
    place: Place
    prose_line: int
    sparge: Sparge | None = None
    raw: bool = False
    still: bool = False

    @property
    def pitched_at(self) -> Value | None:
        """The temperature of the wort as the yeast goes in; `None` where nothing says it."""
        return next((it.pitched or it.temperature for it in self.ferment[:1]), None)

    @property
    def pitched(self) -> tuple[Yeast, ...]:
        """The yeasts that ferment the wort: those that go in later, or sour it before, come on top."""
        return tuple(yeast for yeast in self.yeasts if yeast.moment is None)

    @property
    def fermenting(self) -> tuple[Yeast, ...]:
        """The yeasts that say how far the beer ferments: not what goes into the bottle, and no bacteria."""
        return tuple(it for it in self.yeasts if it.moment is not Stage.PACKAGING and not it.bacteria)

    @property
    def beside_extract(self) -> bool:
        """Whether grain is mashed beside malt extract that goes into the kettle."""
        stirred_in = any(sugar.from_malt and not sugar.into_fermenter for sugar in self.sugars)
        return stirred_in and any(malt.steep is None for malt in self.malts)
