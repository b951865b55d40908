"""What a name says of a thing that goes into the beer: that it brings sugar, that it is alive, that it eats on."""

from __future__ import annotations

import re
from collections.abc import Iterable

_EATS_DEXTRINS = """
    amylase amyloglucosidase brett brettanomyces diastase diastatic diastaticus glucoamylase koji saison
"""
_ALIVE = "bacteria dregs lactobacillus pediococcus sourdough yeast"
_DEAD = "autolysed dead extract food hulls nutrient"
_SWEET = """
    apple apricot banana berries blackberry blackcurrant blueberry candy caramel cherry cherries cider cordial cranberry
    currant date fig fruit grape guava honey jam jelly juice kiwi lemonade liqueur lychee mango maple marmalade melon
    molasses must nectar papaya passionfruit peach pear persimmon pineapple plum pomegranate prune pulp pumpkin puree
    purée quince raisin raspberry raspberries rhubarb squash strawberry strawberries sugar sultana syrup toffee treacle
    watermelon wine wort
"""
_NOT_SWEET = f"barrel chips flower flowers leaf leaves oak peel rind skin wood zest {_ALIVE} {_DEAD}"


def _words_of(names: Iterable[str]) -> frozenset[str]:
    """The words of names, with and without a plural's s."""
    words = {word for name in names for word in re.findall(r"[^\W\d_]+", name.casefold())}
    return frozenset(words | {word.removesuffix("s") for word in words})


def _has(words: str, *names: str) -> bool:
    return not _words_of(names).isdisjoint(words.split())


def eats_on(*names: str) -> bool:
    """Whether one of these is an enzyme or a yeast that goes on where brewer's yeast stops, for weeks.

    >>> eats_on("Glucoamylase"), eats_on("Gluten-reducing enzyme")
    (True, False)
    """
    return _has(_EATS_DEXTRINS, *names)


def is_alive(name: str) -> bool:
    """Whether something of this name ferments by itself.

    >>> is_alive("champagne yeast"), is_alive("Yeast nutrient")
    (True, False)
    """
    return _has(_ALIVE, name) and not _has(_DEAD, name)


def is_sweet(name: str) -> bool:
    """Whether something of this name brings sugar.

    >>> is_sweet("raspberry purée"), is_sweet("cherry wood chips")
    (True, False)
    """
    return _has(_SWEET, name) and not _has(_NOT_SWEET, name)
