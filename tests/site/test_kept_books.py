"""Books of earlier versions are built by every later one: what an author once wrote goes on being read.

`kept/first` is the demo book with all its brews as it stood when version 0.1.0 was new, and a template of its own.
Nothing in it is ever changed to please a later version.
"""

from __future__ import annotations

from pathlib import Path

from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

FIRST = Path(__file__).parent / "kept" / "first"
RECIPES, BATCHES = 21, 17
DRIFTED = [
    "great-spur.md:30:3: error: original gravity has drifted to 1.083; expected 1.092 ± 0.005",
]
"""What an `expect:` is for: an efficiency went by no load then, and whoever feels it most is told of it."""


def test_the_first_book_is_read_whole_and_built_with_its_own_template(cache: FrameCache) -> None:
    problems = Problems()
    book = read_book(FIRST, problems)
    assert book is not None
    done = brewed(book, problems)
    plans = plan_book(done.book, problems)
    # the demo has a site for every edition; one beer shows that what is laid over ours is found, at a tenth of the cost
    best = tuple(plan for plan in plans if plan.recipe.slug == "quillmere-best")
    files = make_site(done.book, best, problems, cache, folder=FIRST, theme=FIRST / "theme")
    assert [str(problem) for problem in problems.errors()] == DRIFTED
    assert (len(plans), len(done.batches)) == (RECIPES - len(DRIFTED), BATCHES)
    assert b"Printed for the class: Quillmere Best" in files["quillmere-best.html"]
