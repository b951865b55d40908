"""What the list of ingredients is given: the things that the book uses, shelf by shelf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gristbook.model.larder import Ingredient
from gristbook.site.amounts import from_to
from gristbook.site.band import rgb
from gristbook.site.figures import Sentence, run
from gristbook.site.pages import Group
from gristbook.site.shelf.larder import Stocked

SHELVES: tuple[tuple[str, str, tuple[str, ...], str], ...] = (
    (
        "malts",
        "Malts and grains",
        ("malts",),
        "Each beside the colour of a beer with a tenth of it in pilsner malt.",
    ),
    ("sugars", "Sugars and extracts", ("sugars", "extracts"), ""),
    ("fruits", "Fruit and juice", ("fruits",), "With the sugar that they hold."),
    ("hops", "Hops", ("hops",), "With the alpha acids that are usual; your packet knows better."),
    ("yeasts", "Yeasts", ("yeasts",), "By families, with the share of the sugar that they seem to take."),
    ("finings", "Finings and spices", ("finings",), ""),
)
"""The shelves in the order of a brew: anchor, title, what stands on it, a word about it."""

CHOSEN_BY = {
    "malts": ("colour", ""),
    "extracts": ("colour", ""),
    "hops": ("alpha", " alpha"),
    "sugars": ("fermentable", " ferments"),
    "fruits": ("sugar", " sugar"),
}
"""By the shelf: the figure that one chooses a thing by, and a word after it."""


@dataclass(frozen=True, slots=True)
class Thing:
    """A thing on a shelf: its name, what it tastes or smells of, a figure; ``colour`` is empty where it brings none."""

    path: str
    name: str
    words: str
    figure: Sentence
    colour: str


@dataclass(frozen=True, slots=True)
class ShelvesPage:
    """What the book's beers are made from, and all that a recipe may name, shelf by shelf."""

    shelves: tuple[Group[Thing], ...]
    named: tuple[Group[Ingredient], ...]


def shelves(stock: Sequence[Stocked]) -> tuple[Group[Thing], ...]:
    """All that the beers of a book are made from, shelf by shelf."""
    found = (
        Group(anchor, title, tuple(_thing(it) for it in stock if it.ingredient.shelf in names), about)
        for anchor, title, names, about in SHELVES
    )
    return tuple(shelf for shelf in found if shelf.rows)


def named(larder: Sequence[Ingredient]) -> tuple[Group[Ingredient], ...]:
    """All that a recipe may name, used or not, shelf by shelf."""
    found = (
        Group(f"named-{anchor}", title, tuple(it for it in larder if it.shelf in names))
        for anchor, title, names, _ in SHELVES
    )
    return tuple(shelf for shelf in found if shelf.rows)


def shelf_of(it: Ingredient) -> tuple[str, str]:
    """The anchor and the title of the shelf that a thing stands on."""
    return next((anchor, title) for anchor, title, names, _ in SHELVES if it.shelf in names)


def words_of(it: Ingredient) -> str:
    """What a thing tastes or smells of, or else what it is for."""
    return next((it.words[field] for field in ("taste", "aroma", "purpose") if it.words.get(field)), "")


def _thing(stocked: Stocked) -> Thing:
    it, tint = stocked.ingredient, stocked.sheet.tint
    colour = rgb(tint.srm.number) if tint else ""
    return Thing(stocked.path, it.name, words_of(it) or it.about, _figure(it), colour)


def _figure(it: Ingredient) -> Sentence:
    """The figure that one chooses a thing by."""
    if it.shelf == "yeasts":
        low, high = it.spans.get("attenuation", (it.figures["attenuation"].number,) * 2)
        return (from_to(low, high, "fraction"),)
    field, after = CHOSEN_BY.get(it.shelf, ("", ""))
    return run(it.figures[field], after or None) if field else ()
