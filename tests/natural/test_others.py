"""Three hundred recipes typed by others, who had the README and the lists of words, and never saw the reader.

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
COMMA = "has a comma in it"
UNREAD: Mapping[str, str] = {
    "a25-slow-barn-sour": ATTENUATION,
    "a27-better-than-the-tin": 'unknown yeast "the 6 g packet',
    "b30-salt-pan-gose": '"80 %" says nothing here',
    "c09-lemon-tree-berliner": 'is called "lactic acid 80 % before the souring"',
    "c11-county-fair-raspberry-wheat": "no temperature and no time",
    "c19-crossroads-rye-ipa": '"1" says nothing here',
    "c22-churchyard-oak-old-ale": ATTENUATION,
    "d08-pink-slip": '"10 capsules" is no amount',
    "d18-first-gyle": "one recipe is one beer",
    "d20-tidewater-gose": "20 mEq/L of acid is no brewer's dose",
    "d24-tin-of-bitter-plus": 'unknown extract "hopped bitter extract"',
    "d28-patience": ATTENUATION,
    "e08-barnfloor-raw-ale": "30 min is longer than the boil of 0 min",
    "e25-hedge-yeast-trial": 'unknown yeast "wild starter caught from elderflowers"',
    "f23-red-cellar": ATTENUATION,
    "f26-pit-head-mild": "both a keg and a priming sugar",
    "g20-fastenkrug": 'how much gas "Speise" gives',
    "g25-balcony-wheat": "more than 3.5 volumes bursts an ordinary bottle",
    "g27-pink-litmus": '"< 8" is not a figure',
    "g28-crosspatch-millet": "nothing cools a mash",
    "g30-lighthouse-coal": '"330 mL" says nothing here',
    "h10-no-barley-blues": "nothing cools a mash",
    "h13-school-night": "no amount of acid",
    "h16-barn-raw-ale": "juniper liquor",
    "h17-night-shift-dark-lager": '"or" says nothing here',
    "h19-smoked-champagne": 'unknown yeast "clean"',
    "h20-stock-pale": ATTENUATION,
    "h22-tin-mild": 'how much gas "sugar per pint bottle" gives',
    "h23-demijohn-porter": "a second sparge",
    "h24-boxing-day": '"amber" is a second thing',
    "h25-midsummer-elder": "lactic acid 80% to knock the alkalinity down",
    "h26-hefeweizen": COMMA,
    "h27-festmaerzen": COMMA,
    "h28-altbier": COMMA,
    "h29-rauch-doppelbock": COMMA,
    "h30-berliner-weisse": COMMA,
    "i14-wharf-porter-1850": ATTENUATION,
    "j18-wharf-stock-porter": ATTENUATION,
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
