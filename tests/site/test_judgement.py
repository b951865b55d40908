"""What a page says at once of a beer with many faults, and what it folds."""

from pathlib import Path

from bs4 import BeautifulSoup
from made_site import make_site

from gristbook.charts.caches import MemoryCache
from gristbook.problems import Problems
from gristbook.targets.advice.judgement import AT_ONCE, judgement
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

AWFUL = """---
title: Awful
style: oatmeal stout
malts:
  - 5 kg pilsner malt
  - 400 g caramel malt 120
hops:
  - 60 g Magnum, 13 % alpha, 60 min
  - 300 g Cascade, 6 % alpha, dry 12 days
yeast: 13 g american ale yeast, clean, dried
mash: 73 °C, 25 min
water: very hard chalk water
ferment:
  - 26 °C, 5 days
  - 33 °C, 10 days
meant:
  dry hops: the whole bag had to go
---
"""


def test_no_more_than_five_things_are_said_at_once_and_the_rest_is_folded(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\n", "utf-8")
    (tmp_path / "awful.md").write_text(AWFUL, "utf-8")
    book = read_book(tmp_path, problems := Problems())
    assert book is not None
    (plan,) = plans = plan_book(book, problems)
    files = make_site(book, plans, problems, MemoryCache())
    page, study = (BeautifulSoup(files[path], "html.parser") for path in ("awful.html", "awful/figures.html"))
    shown, folded = (page.select(f"[aria-labelledby=advice] > {part}") for part in ("ul > li", "details li"))
    said = [advice for advice in judgement(plan) if advice.key != "mash pH"]
    assert (len(shown), len(folded)) == (AT_ONCE, len(said)) == (5, len(folded))
    assert len(said) > AT_ONCE + 3
    assert [advice.key for advice in said[:3]] == ["mash temperature", "warming", "time of the mash"]
    assert said[-1].key == "dry hops"
    assert "the whole bag had to go" in folded[-1].get_text()
    (water,) = study.select("[aria-labelledby=water]")
    assert "lactic acid" in water.get_text() or "phosphoric acid" in water.get_text()
    assert [it.get_text().count("the pH of its mash too high") for it in (page, study)] == [0, 1]
