"""Two hundred and ten recipes typed by others, who had the README and the lists of words, and never saw the reader.

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

ATTENUATION = "State the attenuation that you expect"
ROOM = "and the wort leaves only"
UNREAD: Mapping[str, str] = {
    "a25-slow-barn-sour": ATTENUATION,
    "a27-better-than-the-tin": 'unknown yeast "the 6 g packet',
    "b30-salt-pan-gose": '"80 %" says nothing here',
    "c03-kleine-freiheit-pils": "has drifted",
    "c09-lemon-tree-berliner": 'is called "lactic acid 80 % before the souring"',
    "c11-county-fair-raspberry-wheat": "no temperature and no time",
    "c13-one-jug-brown": ROOM,
    "c14-fensterbrett-porter": ROOM,
    "c19-crossroads-rye-ipa": '"1" says nothing here',
    "c22-churchyard-oak-old-ale": ATTENUATION,
    "d08-pink-slip": '"10 capsules" is no amount',
    "d10-oat-coat": "has drifted",
    "d13-little-mild": ROOM,
    "d18-first-gyle": "one recipe is one beer",
    "d20-tidewater-gose": "20 mEq/L of acid is no brewer's dose",
    "d23-third-bell-tripel": "has drifted",
    "d24-tin-of-bitter-plus": 'unknown extract "hopped bitter extract"',
    "d28-patience": ATTENUATION,
    "e08-barnfloor-raw-ale": "30 min is longer than the boil of 0 min",
    "e25-hedge-yeast-trial": 'unknown yeast "wild starter caught from elderflowers"',
    "f12-four-litres-to-start": ROOM,
    "f23-red-cellar": ATTENUATION,
    "f26-pit-head-mild": "both a keg and a priming sugar",
    "g19-hafentreppe-alt": "has drifted",
    "g20-fastenkrug": 'how much gas "Speise" gives',
    "g25-balcony-wheat": 'a recipe has no "top up"',
    "g27-pink-litmus": '"< 8" is not a figure',
    "g28-crosspatch-millet": "nothing cools a mash",
    "g30-lighthouse-coal": '"330 mL" says nothing here',
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
