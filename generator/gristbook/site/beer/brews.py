"""What the pages of a beer are made from: plan, method and working, of the recipe as written and of every edition."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields

from gristbook.model.book import Book
from gristbook.model.edition import Edition
from gristbook.model.recipe import Hop, HoppedKit, Malt, Recipe, Sugar, Yeast
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount
from gristbook.site.beer.stamp import mark
from gristbook.site.beer.working import Elsewhere, Working, values_in, working
from gristbook.site.figures import Shown
from gristbook.site.pages import Address, of_edition, of_recipe
from gristbook.site.words import capital
from gristbook.targets.advice.advice import advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.editions.make import MadeEdition, RefusedEdition, editions_of
from gristbook.targets.figures import Plan
from gristbook.targets.hops.packets import PacketRow, packet_rows
from gristbook.targets.method.step import Step
from gristbook.targets.method.whole import steps
from gristbook.targets.water.verdict import verdict

TITLES: Mapping[str, str] = {
    "grist": "The grist",
    "volumes": "Volumes",
    "wort": "Gravity",
    "fermentation": "Fermentation",
    "bitterness": "Bitterness",
    "colour": "Colour",
    "mash": "The mash",
    "water": "Water",
    "pitch": "Yeast",
    "cooling": "Cooling",
    "packaging": "Packaging",
    "serving": "In the glass",
    "readings": "Instruments",
    "chemistry": "The brewing water",
}
"""What each part of the plan is called in the working."""

FROM: Mapping[str, str] = {"as written": "", "extract": ", from malt extract", "grain": ", from whole grain"}
"""What an edition is brewed from, where its recipe is not."""


@dataclass(frozen=True, slots=True)
class Brew:
    """A plan with its method and its working, worked out once for all its pages, and where those stand."""

    plan: Plan
    steps: tuple[Step, ...]
    packets: tuple[PacketRow, ...]
    working: Working
    mark: str
    at: Address

    def shown(self, here: str) -> Shown:
        """Makes figures of this brew for the page ``here``."""
        return Shown(self.working, here, self.at.working)


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

    def brews(self) -> Iterator[Brew]:
        """Every brew of this beer that has pages of its own."""
        yield self.home
        yield from (edition.brew for edition in self.editions)

    def edition_words(self) -> Mapping[str, str]:
        """What each edition is, by its address."""
        return {it.made.edition.slug: it.words for it in self.editions}


def beer_of(plan: Plan, book: Book, elsewhere: Mapping[int, Elsewhere] | None = None) -> Beer:
    """A recipe's plan and all its editions, with everything that their pages are made from.

    ``elsewhere`` has the values that are worked out on other pages, as those that brews have taught.
    """
    found = editions_of(plan, book)
    slug = plan.recipe.slug
    return Beer(
        brew(plan, of_recipe(slug), elsewhere),
        brewed(plan.recipe.batch, plan.brewhouse.name, us=book.units == "US"),
        tuple(
            OtherBrew(
                edition_words(it.edition, it.plan), it, brew(it.plan, of_edition(slug, it.edition.slug), elsewhere)
            )
            for it in found
            if isinstance(it, MadeEdition)
        ),
        tuple(it for it in found if isinstance(it, RefusedEdition)),
    )


def brew(plan: Plan, at: Address, elsewhere: Mapping[int, Elsewhere] | None = None) -> Brew:
    """A plan with its method and its working."""
    made, packets = steps(plan), packet_rows(plan)
    return Brew(plan, made, packets, working_of(plan, made, packets, elsewhere), mark(plan, made), at)


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


def values_shown(brews: Iterable[Brew]) -> Iterator[Value]:
    """Everything whose working the pages of brews show."""
    for it in brews:
        yield from values_in((it.plan.figures, it.steps))
        yield from values_in(it.packets, without=(Hop,))


def working_of(
    plan: Plan,
    made: tuple[Step, ...],
    packets: tuple[PacketRow, ...],
    elsewhere: Mapping[int, Elsewhere] | None = None,
) -> Working:
    """The working of everything that a recipe's pages show, and of nothing that only the pantry knows."""
    groups: list[tuple[str, Iterable[Value]]] = [("The recipe", _written(plan.recipe))]
    for field in fields(plan.figures):
        values = values_in(getattr(plan.figures, field.name), without=(Malt, Sugar, Hop, HoppedKit, Yeast))
        groups.append((TITLES.get(field.name, capital(field.name.replace("_", " "))), values))
    groups += [("Cost", values_in(plan.cost)), ("The method", values_in(made))]
    groups += [("The verdict on the water", values_in(verdict(plan)))]
    groups += [("What a teacher would say", values_in(advise(plan, ROWS)))]
    groups += [("Hops from another packet", values_in(packets, without=(Hop,)))]
    return working(groups, plan.named, elsewhere=elsewhere)


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
