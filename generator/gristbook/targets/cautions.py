"""Which cautions stand at which step: rows of data, and the one function that reads them."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import replace

from gristbook.problems import Place
from gristbook.targets.caution_rows import CAUTIONS, Caution
from gristbook.targets.conventions import STRONG_ABV
from gristbook.targets.doses import doses
from gristbook.targets.figures import Plan
from gristbook.targets.gas import LIMITS
from gristbook.targets.gas_routes import beyond_its_yeast, diastatic, routes_to_gas
from gristbook.targets.method_step import Sentence

BREAD_CEREALS: Mapping[str, str] = {
    "barley": "barley",
    "wheat": "wheat",
    "rye": "rye",
    "oats": "oats",
    "spelt": "spelt (a wheat)",
    "triticale": "triticale (of wheat and rye)",
}
"""The pantry's cereals that hold gluten, and how a label names them."""

ALLERGENS: Mapping[str, str] = {
    "albumen": "egg",
    "almond": "nuts",
    "buckwheat": "buckwheat",
    "celery": "celery",
    "chitosan": "crustaceans",
    "egg": "egg",
    "hazelnut": "nuts",
    "isinglass": "fish",
    "lactose": "milk",
    "metabisulfite": "sulfite",
    "metabisulphite": "sulfite",
    "milk": "milk",
    "mustard": "mustard",
    "nut": "nuts",
    "peanut": "peanuts",
    "pecan": "nuts",
    "sesame": "sesame",
    "soya": "soya",
    "sulfite": "sulfite",
    "walnut": "nuts",
    "whey": "milk",
}
"""What a word in an ingredient's name brings, where the pantry says nothing of it (common practice, no source)."""

ALLERGENS_HERE = "{allergens}"
"""Stands in a row's words for the brew's own."""

ANY_ALLERGEN = "each cereal by its name, milk, egg, fish, crustaceans, nuts and sulfite"


def allergens(plan: Plan) -> tuple[str, ...]:
    """What is in the beer that some must not drink, each once, by name; what nobody named is said to be unknown."""
    recipe = plan.recipe
    found: set[str] = set()
    for malt in recipe.malts:
        if not malt.cereal:
            found.add(f"a cereal that nobody has named ({malt.name})")
        found |= {BREAD_CEREALS[malt.cereal]} if malt.cereal in BREAD_CEREALS else allergens_named(malt.cereal)
    for sugar in recipe.sugars:
        words = _words(sugar.name)
        if sugar.from_malt:  # extracts of wheat or rye are mashed with barley malt, for its enzymes
            found |= {"barley"} | {BREAD_CEREALS[word] for word in words if word in BREAD_CEREALS}
        found |= allergens_named(sugar.name)
    for extra in recipe.extras:
        found |= {extra.allergen} if extra.allergen else allergens_named(extra.name)
    found |= {salt.allergen for salt in recipe.water.salts if salt.allergen}
    return tuple(sorted(found))


def allergens_named(name: str) -> set[str]:
    """What a name says that a thing brings."""
    return {ALLERGENS[word] for word in _words(name) if word in ALLERGENS}


def _words(name: str) -> set[str]:
    """The words of a name, with and without a plural's s."""
    words = re.findall(r"[^\W\d_]+", name.casefold())
    return {form for word in words for form in (word, word.removesuffix("s"))}


def applying(kind: str, plan: Plan) -> tuple[Caution, ...]:
    """The rows that stand at a kind of step in this brew, and what the recipe's own amounts call for."""
    rows = (row for row in CAUTIONS if CONDITIONS[row.when](plan))
    return tuple(row for row in (*rows, *_by_amount(plan)) if kind in row.kinds)


def cautions_for(kind: str, plan: Plan) -> tuple[Sentence, ...]:
    """What a brewer must be told at a kind of step in this brew."""
    return tuple(worded(row, plan) for row in applying(kind, plan))


def worded(row: Caution, plan: Plan) -> Sentence:
    """A caution as a sentence, with the brew's own allergens."""
    return row.around(row.words.replace(ALLERGENS_HERE, ", ".join(allergens(plan))))


def in_short(kinds: Collection[str], plan: Plan) -> tuple[str, ...]:
    """The shortest form of all that stands at these kinds of step in this brew, each once, in the order of the rows."""
    rows = [row for row in CAUTIONS if CONDITIONS[row.when](plan)] + [*_by_amount(plan)]
    return tuple(dict.fromkeys(row.short for row in rows if row.short and not set(kinds).isdisjoint(row.kinds)))


def all_cautions() -> tuple[Caution, ...]:
    """Every caution there is, each once, for a page that gathers them."""
    limits = (limit.against(limit.bounds()[0], Place("")).caution for limit in LIMITS)
    rows = (replace(row, words=row.words.replace(ALLERGENS_HERE, ANY_ALLERGEN)) for row in CAUTIONS)
    return tuple({row.words: row for row in (*rows, *limits)}.values())


def _by_amount(plan: Plan) -> Iterator[Caution]:
    for of_gas in routes_to_gas(plan):
        yield of_gas.caution
    for against in doses(plan):
        yield Caution(f"{against.words}.", ("water",), lead=("More than ", against.bound))


CONDITIONS: Mapping[str, Callable[[Plan], bool]] = {
    "always": lambda plan: True,
    "allergens": lambda plan: bool(allergens(plan)),
    "ice for the top-up": lambda plan: plan.figures.cooling is not None and plan.figures.cooling.ice is not None,
    "first-wort hops": lambda plan: any(hop.use == "first wort" for hop in plan.recipe.hops),
    "gluten": lambda plan: any(name.startswith(tuple(BREAD_CEREALS)) for name in allergens(plan)),
    "a diastatic yeast": diastatic,
    "a beer stronger than its yeast bears": beyond_its_yeast,
    "a strong beer": lambda plan: plan.figures.fermentation.abv.number >= STRONG_ABV,
}
"""When a row applies, by the name that it gives."""
