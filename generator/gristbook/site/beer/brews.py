"""What the pages of a beer are made from: plan, method and working, of the recipe as written and of every edition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Protocol

from gristbook.model.book import Book
from gristbook.model.edition import Edition
from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.model.yeast import Yeast
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount
from gristbook.site.beer.stamp import mark
from gristbook.site.figures import Shown
from gristbook.site.pages import Address, of_edition, of_recipe
from gristbook.site.words import capital, hop_words
from gristbook.site.working.page import laid_out
from gristbook.site.working.walk import Elsewhere, Group, Kettle, Walk, values_in, walked
from gristbook.site.working.worksheet import Working, Worksheet
from gristbook.targets.advice.advice import Advice
from gristbook.targets.advice.judgement import judgement
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, editions_of
from gristbook.targets.figures import Plan
from gristbook.targets.hops.packets import PacketRow, packet_rows
from gristbook.targets.method.step import Step
from gristbook.targets.method.whole import steps
from gristbook.targets.water.verdict import verdict

OF_HOPS = (
    "Each addition of hops is reckoned by itself: a share of its alpha acids turns bitter, the more the longer they "
    "boil and the thinner the wort is. That is spread over the wort, and what the additions bring is added up."
)
PARTS: Mapping[str, tuple[str, str]] = {
    "grist": ("Weights and extract", "grain-mashed"),
    "volumes": ("Volumes", "into-the-fermenter"),
    "wort": ("Gravity", "original-gravity"),
    "fermentation": ("Fermentation", "alcohol-by-volume"),
    "bitterness": ("Bitterness", "bitterness"),
    "colour": ("Colour", "colour"),
    "mash": ("The mash", "strike-temperature"),
    "water": ("Water", "total-water"),
    "pitch": ("Yeast", "cells-to-pitch"),
    "cooling": ("Cooling", "cool-to-before-topping-up"),
    "packaging": ("Packaging", "carbonation"),
    "serving": ("In the glass", "energy-in-a-small-bottle"),
    "readings": ("Instruments", "refractometer-in-the-wort"),
    "chemistry": ("The brewing water", "mash-ph"),
}
"""What each part of the plan is called in the working, and the figure that it comes to."""

FROM: Mapping[str, str] = {"as written": "", "extract": ", from malt extract", "grain": ", from whole grain"}
"""What an edition is brewed from, where its recipe is not."""

BY_SOURCE: Mapping[str, str] = {"extract": "extract", "grain": "grain"}
"""The same in a word."""

BY_MODEL = ("models", "strengths", "mash_ph_models")
"""What the results of every model are called, where a book chooses one."""


class Workings:
    """The working of all brews of a beer, put on its page when a page first asks where a figure stands there."""

    def __init__(self, walks: Callable[[], Sequence[Walk]]) -> None:
        self._of = walks

    def forget(self) -> None:
        """Let go of it: it is large, and is made again where somebody asks."""
        for name in ("walks", "page"):
            self.__dict__.pop(name, None)

    @cached_property
    def walks(self) -> Sequence[Walk]:
        """Which figures the page tells."""
        return self._of()

    @cached_property
    def page(self) -> tuple[Worksheet, tuple[Working, ...]]:
        """The page, and where on it the figures of each brew stand."""
        return laid_out(self.walks)


@dataclass(frozen=True, slots=True)
class Brew:
    """A plan with its method and its working, worked out once for all its pages, and where those stand.

    ``kettle`` is its place among the ``workings`` of its beer.
    """

    plan: Plan
    steps: tuple[Step, ...]
    packets: tuple[PacketRow, ...]
    judgement: tuple[Advice, ...]
    workings: Workings
    kettle: int
    mark: str
    at: Address

    def shown(self, here: str) -> Shown:
        """Makes figures of this brew for the page ``here``."""
        return Shown(self.workings.page[1][self.kettle], here, self.at.working)


@dataclass(frozen=True, slots=True)
class OtherBrew:
    """An edition that was made, and what it is in words: `10 L in the stove brewhouse, from malt extract`."""

    words: str
    made: MadeEdition
    brew: Brew


@dataclass(frozen=True, slots=True)
class Beer:
    """A recipe as it is written and what that is in words, its editions, and those that cannot honestly be made."""

    home: Brew
    words: str
    editions: tuple[OtherBrew, ...]
    refused: tuple[RefusedEdition, ...]

    @property
    def worksheet(self) -> Worksheet:
        """The working of all its brews."""
        return self.home.workings.page[0]

    def brews(self) -> Iterator[Brew]:
        """Every brew of this beer that has pages of its own."""
        yield self.home
        yield from (edition.brew for edition in self.editions)


def beer_of(plan: Plan, book: Book, elsewhere: Mapping[int, Elsewhere] | None = None) -> Beer:
    """A recipe's plan and all its editions, with everything that their pages are made from.

    ``elsewhere`` has the values that are worked out on other pages, as those that brews have taught.
    """
    found, slug = editions_of(plan, book), plan.recipe.slug
    made = [it for it in found if isinstance(it, MadeEdition)]
    words = [edition_words(it.edition, it.plan) for it in made]
    methods = [(steps(it), packet_rows(it), judgement(it)) for it in (plan, *(it.plan for it in made))]
    at = [of_recipe(slug), *(of_edition(slug, it.edition.slug) for it in made)]

    def walks() -> Sequence[Walk]:
        kettles = [_kettle(plan, *methods[0], at[0].page, us=book.units == "US")]
        for it, method, address in zip(made, methods[1:], at[1:], strict=True):
            kettles.append(_kettle(it.plan, *method, address.page, it.edition))
        return walked(kettles, (), elsewhere)

    workings, plans = Workings(walks), (plan, *(it.plan for it in made))
    home, *brews = (
        Brew(own, *method, workings, n, mark(own, method[0]), address)
        for n, (own, method, address) in enumerate(zip(plans, methods, at, strict=True))
    )
    return Beer(
        home,
        brewed(plan.recipe.batch, plan.brewhouse.name, us=book.units == "US"),
        tuple(OtherBrew(*it) for it in zip(words, made, brews, strict=True)),
        tuple(it for it in found if isinstance(it, RefusedEdition)),
    )


def edition_words(edition: Edition, plan: Plan) -> str:
    """What an edition is, in its own units."""
    return brewed(plan.recipe.batch, plan.brewhouse.name, us=edition.us) + FROM[edition.source]


def refused_words(edition: Edition, home: Plan) -> str:
    """What an edition would have been."""
    return brewed(edition.batch or home.recipe.batch, edition.brewhouse or "", us=edition.us) + FROM[edition.source]


def brewed(batch: Value, brewhouse: str, *, us: bool) -> str:
    """A size and a set of vessels in words."""
    size = amount(batch)
    return (size.us if us and size.us else size.metric) + (f" in the {brewhouse} brewhouse" if brewhouse else "")


class _Named(Protocol):
    @property
    def name(self) -> str: ...


def _kettle(
    plan: Plan,
    made: tuple[Step, ...],
    packets: tuple[PacketRow, ...],
    said: tuple[Advice, ...],
    page: str,
    edition: Edition | None = None,
    *,
    us: bool = False,
) -> Kettle:
    """Everything that the pages of a brew show, and nothing that only the pantry knows."""
    us, source = (edition.us, edition.source) if edition else (us, "")
    size = amount(plan.recipe.batch)
    words = ", ".join(
        it for it in (size.us if us and size.us else size.metric, plan.brewhouse.name, BY_SOURCE.get(source)) if it
    )
    decided = [value for value in values_in(plan.recipe) if not isinstance(value.made, Given)] if edition else []
    recipe = plan.recipe
    lines: tuple[_Named, ...] = (*recipe.malts, *recipe.sugars, *recipe.hops, *recipe.kits, *recipe.yeasts)
    lines += (*recipe.extras, *recipe.water.salts, *recipe.water.acids)
    groups, slug = tuple(_groups(plan, made, packets, said)), edition.slug if edition else ""
    additions = {
        id(it): hop_words(line.hop).removeprefix("boil ")
        for line in plan.figures.bitterness.hops
        for it in values_in((line.mass, line.utilisation, line.bitterness, line.hop.use))
    }
    return Kettle(words, page, groups, plan.named, slug, {it.name for it in lines}, decided, additions)


def _groups(
    plan: Plan, made: tuple[Step, ...], packets: tuple[PacketRow, ...], said: tuple[Advice, ...]
) -> Iterator[Group]:
    """The parts of the working, in the order of the brew."""
    yield Group("The recipe", tuple(_written(plan.recipe)), comes_to=plan.recipe.batch)
    for field in fields(plan.figures):
        title, figure = PARTS.get(field.name, (capital(field.name.replace("_", " ")), ""))
        part = getattr(plan.figures, field.name)
        own = tuple(getattr(part, it.name) for it in fields(part) if it.name not in BY_MODEL) if part else ()
        others = tuple(getattr(part, name, ()) for name in BY_MODEL)
        values = tuple(values_in(own, without=(Malt, Sugar, Hop, HoppedKit, Yeast)))
        about = OF_HOPS if field.name == "bitterness" and plan.recipe.hops else ""
        yield Group(title, values, tuple(values_in(others)), plan.sheet.get(figure), about)
    yield Group("Cost", tuple(values_in(plan.cost)))
    yield Group("The method", tuple(values_in(made)))
    yield Group("The verdict on the water", tuple(values_in(verdict(plan))))
    yield Group("What a teacher would say", tuple(values_in(said)))
    yield Group("Hops from another packet", tuple(values_in(packets, without=(Hop,))))


def _written(recipe: Recipe) -> Iterator[Value]:
    """What the recipe's own file gives, what an edition made of it, and what its pages show of the pantry's."""
    for value in values_in(recipe):
        if not isinstance(value.made, Given) or _in_file(value, recipe):
            yield value
    yield from values_in((tuple(malt.steep for malt in recipe.malts), recipe.mash, recipe.ferment, recipe.water))
    yield from values_in(tuple((hop.alpha, hop.use) for hop in recipe.hops))
    yield from values_in(tuple((sugar.colour, sugar.minutes) for sugar in recipe.sugars))
    yield from values_in((recipe.kits, tuple(extra.amount for extra in recipe.extras)))


def _in_file(value: Value, recipe: Recipe) -> bool:
    return value.place is not None and value.place.path == recipe.place.path
