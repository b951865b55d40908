"""What a figure goes by: words that a file, an address and a program can all hold."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Iterator


def id_of(words: str) -> str:
    """Words in plain small letters, with a dash between them; nothing where no letter is left.

    >>> id_of("boil volume, hot"), id_of("Kölsch-like ale & co.")
    ('boil-volume-hot', 'kolsch-like-ale-co')
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def ids_of_lines(kind: str, names: Iterable[str]) -> Iterator[str]:
    """An id for each line of a kind, in the order of the file: the second of a name gets a 2, and no other name moves.

    >>> list(ids_of_lines("hop", ["Fuggle", "Goldings", "Fuggle"]))
    ['hop.fuggle', 'hop.goldings', 'hop.fuggle.2']
    """
    seen: Counter[str] = Counter()
    for name in names:
        own = f"{kind}.{id_of(name)}"
        seen[own] += 1
        yield own if seen[own] == 1 else f"{own}.{seen[own]}"
