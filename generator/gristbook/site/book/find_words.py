"""By what other words one asks for a place of the book, and which parts of a beer's pages one asks for at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

STAND_IN = "substitute replace swap instead alternative"
LOW, HIGH = "hydrometer too low weak missed", "hydrometer too high strong missed"
PRIMING = "bottling priming sugar carbonation fizz"
COOLER = "cooler chiller cooling coil"
BURST = "bottle bombs explode overcarbonated foam"
FIRST_AID = "first aid safety danger scald burn splash eye gas cut glass accident"

HEADINGS: Mapping[str, str] = {
    "choose-hops#if-the-shop-has-not-got-it": f"{STAND_IN} stand in",
    "cleaning#then-sanitise-on-the-cold-side-only": "disinfect sanitiser sterilise",
    "extract-and-kits#a-pot-smaller-than-the-batch": "partial boil small pot",
    "first-brew-day#6-cool-30-minutes": COOLER,
    "first-brew-day#9-bottle-two-readings-later": "bottling",
    "hops-and-time#keeping-hops": "store freeze",
    "malt-and-mash#how-hot-the-water-must-be": "strike temperature",
    "packaging#first-be-sure-that-it-has-finished": "when to bottle done ready",
    "packaging#the-bottles": "bottling",
    "packaging#then-the-sugar": PRIMING,
    "packaging#if-one-gushes-or-bursts": BURST,
    "pitching-and-temperature#cool-first-pitch-after": COOLER,
    "pitching-and-temperature#when-nothing-happens": "stuck fermentation airlock bubbles slow start",
    "what-went-wrong#bottles-gush": BURST,
    "what-went-wrong#butter": "diacetyl off flavour",
    "what-went-wrong#gravity-before-the-boil-is-low": LOW,
    "what-went-wrong#it-is-flat": "carbonation fizz",
    "what-went-wrong#it-stops-too-high": "stuck fermentation final gravity",
    "what-went-wrong#original-gravity-is-high": HIGH,
    "what-went-wrong#original-gravity-is-low": LOW,
    "what-went-wrong#there-is-a-skin-or-ropes-or-mould": "infection infected",
}
"""What else one may call what stands under a heading of a lesson, by its page and anchor."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part that every beer's pages have: on which page (a field of its `Address`), under which anchor, and called?"""

    page: str
    anchor: str
    words: str
    called: str


PARTS = (
    Part("page", "ingredients", "What goes in", "ingredients recipe grist hops yeast amounts"),
    Part("page", "instead", "What may be taken instead", f"{STAND_IN} stand in"),
    Part("page", "method", "What to do", "method steps"),
    Part("page", "outcome", "How it should come out", "taste colour strength bitterness"),
    Part("day", "", "The brew day, step by step", "instructions timer alarm ticks"),
    Part("day", "not-as-planned", "Wort that is not as planned", f"{LOW} {HIGH} gravity volume adjust correct"),
    Part("figures", "figures", "All figures, with their ranges", "gravity OG FG ABV IBU SRM EBC efficiency"),
    Part("figures", "water", "The water", "salts minerals gypsum pH"),
    Part("figures", "bottling", "In the bottle and in the glass", f"{PRIMING} keg pressure packaging"),
    Part("buy", "", "What to buy", "shopping list shop cost price money"),
    Part("card", "", "The card, one side of paper", "print kitchen"),
    Part("working", "", "The working of every figure", "equations formulas sums calculation"),
)
