"""Which allergens a name speaks of: the longest words that fit, and none where it only sounds like one."""

from collections.abc import Mapping
from functools import cache

from gristbook.pantry.lookup import Shelf
from gristbook.pantry.names import VOCABULARIES, Words
from gristbook.pantry.records import Allergen

PLAIN = VOCABULARIES["allergens"]


def allergens_in(name: str, shelf: Shelf[Allergen]) -> tuple[frozenset[str], bool]:
    """The allergens of the shelf that a name speaks of, and whether it speaks of nothing else.

    Coconut milk is no milk, peanut butter is peanuts and no butter: words that were taken count for nothing more.
    """
    phrases, words = _phrases(shelf), PLAIN.words(name)
    longest = max(map(len, phrases), default=0)
    found, at, whole = set[str](), 0, bool(words)
    while at < len(words):
        sizes = range(min(longest, len(words) - at), 0, -1)
        size = next((size for size in sizes if words[at : at + size] in phrases), 0)
        brings = phrases.get(words[at : at + size], "")
        found |= {brings} if brings else set()
        whole = whole and bool(brings)
        at += max(size, 1)
    return frozenset(found), whole


@cache
def _phrases(shelf: Shelf[Allergen]) -> Mapping[Words, str]:
    """Words that bring an allergen, by its name; "" for words that only sound like one, of whichever record."""
    brings = {PLAIN.words(name): it.name for it in shelf.records for name in (it.name, *it.also)}
    return brings | {PLAIN.words(name): "" for it in shelf.records for name in it.but}
