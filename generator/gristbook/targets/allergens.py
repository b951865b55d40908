"""What is in a beer that some must not drink."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gristbook.targets.figures import Plan

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


def allergens(plan: Plan) -> tuple[str, ...]:
    """What is in the beer that some must not drink, each once, by name; what nobody named is said to be unknown."""
    recipe = plan.recipe
    found: set[str] = set()
    for malt in recipe.malts:
        if not malt.cereal:
            found.add(f"a cereal that nobody has named ({malt.name})")
        found |= {BREAD_CEREALS[malt.cereal]} if malt.cereal in BREAD_CEREALS else allergens_named(malt.cereal)
    for sugar in recipe.sugars:
        words = words_of(sugar.name)
        if sugar.from_malt:  # extracts of wheat or rye are mashed with barley malt, for its enzymes
            found |= {"barley"} | {BREAD_CEREALS[word] for word in words if word in BREAD_CEREALS}
        found |= allergens_named(sugar.name)
    for extra in recipe.extras:
        found |= {extra.allergen} if extra.allergen else allergens_named(extra.name)
    found |= {salt.allergen for salt in recipe.water.salts if salt.allergen}
    return tuple(sorted(found))


def allergens_named(name: str) -> set[str]:
    """What a name says that a thing brings."""
    return {ALLERGENS[word] for word in words_of(name) if word in ALLERGENS}


def words_of(name: str) -> set[str]:
    """The words of a name, with and without a plural's s."""
    words = re.findall(r"[^\W\d_]+", name.casefold())
    return {form for word in words for form in (word, word.removesuffix("s"))}
