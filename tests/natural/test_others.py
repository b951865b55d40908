"""Three hundred and sixty recipes typed by others, who had the README and the lists of words, and never saw the reader.

Each was read for the first time when it was whole. What they showed was mended since, so that they are no measure of
how the next ones fare; they keep what they taught.
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

from gristbook.problems import Problem, Problems, Severity
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

HERE = Path(__file__).parent / "others"
SLUGS = [path.stem for path in sorted(HERE.glob("*.md"))]

COMMA = "has a comma in it"
UNREAD: Mapping[str, str] = {
    "d18-first-gyle": "one recipe is one beer",
    "d20-tidewater-gose": "20 mEq/L of acid is no brewer's dose",
    "d24-tin-of-bitter-plus": "more than 3.5 volumes bursts an ordinary bottle",
    "e08-barnfloor-raw-ale": "30 min is longer than the boil of 0 min",
    "e25-hedge-yeast-trial": 'unknown yeast "wild starter caught from elderflowers"',
    "g20-fastenkrug": 'how much gas "Speise" gives',
    "g25-balcony-wheat": "more than 3.5 volumes bursts an ordinary bottle",
    "h16-barn-raw-ale": "60 min is longer than the boil of 0 min",
    "h26-hefeweizen": COMMA,
    "h27-festmaerzen": COMMA,
    "h28-altbier": COMMA,
    "h29-rauch-doppelbock": COMMA,
    "h30-berliner-weisse": COMMA,
    "k26-salty-dog-gose": "2 days is left for cucumber",
    "k30-hop-tea-cheat-hazy": "20 min is longer than the boil of 0 min",
    "l02-sunday-weizen": 'how much gas "1.6 L of Speise"',
    "l16-ridge-raw-ale": "it ferments for 1.67 days",
    "j22-weizen-of-the-blue-kitchen": "wort kept back before pitching",
}
"""What is not read, and what its author is told: of most one thing."""


@cache
def errors() -> Mapping[str, list[Problem]]:
    """The errors of each, as `check` finds them."""
    problems = Problems()
    book = read_book(HERE, problems)
    assert book is not None
    plan_book(book, problems)
    wrong = [it for it in problems if it.severity is Severity.ERROR]
    return {slug: [it for it in wrong if Path(it.place.path).stem == slug] for slug in SLUGS}


@pytest.mark.parametrize("slug", sorted(set(SLUGS) - UNREAD.keys()))
def test_it_is_read(slug: str) -> None:
    assert [str(it) for it in errors()[slug]] == []


@pytest.mark.parametrize("slug", UNREAD)
def test_its_author_is_told_what_to_change(slug: str) -> None:
    told = [str(it) for it in errors()[slug]]
    assert told
    assert all(UNREAD[slug] in it for it in told)
