"""Recipes as brewers write them, typed before the reader was looked at: each is read, and nothing of it is dropped."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from shutil import copy
from tempfile import TemporaryDirectory

import pytest
import yaml
from bs4 import BeautifulSoup
from made_site import make_site
from written_again import as_text

from gristbook.charts.caches import FrameCache, MemoryCache
from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.targets.buying.shopping import Purchase, shopping
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Plan, named_figures
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book
from gristbook.text.recipe import read_recipe
from gristbook.text.values import Desk

HERE = Path(__file__).parent
TEXTS: Mapping[str, str] = {path.stem: path.read_text("utf-8") for path in sorted(HERE.glob("recipes/*.md"))}
WANTED: Mapping[str, list[str]] = yaml.safe_load((HERE / "wanted.yaml").read_text("utf-8"))

UNREAD: Mapping[str, str] = {
    "32-two-from-one-mash": "one recipe is one beer: two from one mash are two recipes",
    "36-heather-mead": "without malt this is no beer, and a mead, a cider or a wine is not worked out",
    "38-forum-ipa": '"1 tsp" of a salt is a guess in "1 tsp gypsum in the mash"; expected its weight, as 5 g',
}
"""What is not read, and the one thing that its author is told."""

READ = sorted(TEXTS.keys() - UNREAD.keys())

BOOK = "title: The Quillmere Notebook\n"
"""Of somebody who has described no vessels yet, so that a litre and five gallons have such as fit them."""

LINES = ("malts", "sugars", "extracts", "hops", "fruit", "spices", "finings and spices", "extras", "yeast", "water")
"""Where a recipe names what goes in."""

PAGES = {
    ".html": ("ingredients", "water", "packing"),
    "/figures.html": ("goes-in", "water", "bottling"),
    "/day.html": (),
}
"""The pages of a recipe, and the sections of each that tell what goes in and what is done; all of the day's."""

ROLES: Mapping[str, str] = {
    **{word: word for word in ("protein rest", "saccharification", "decoction", "mash.out")},
    **{word: word for word in ("first wort", "mash hop", "late addition", "flameout", "whirlpool", "hop stand")},
    **{word: word for word in ("dry hop", "steep", "diacetyl rest", "cold crash", "secondary", "pressure")},
    **{word: word for word in ("starter", "slurry", "top.cropped", "cask", "drops", "heavy bottles")},
    "dough in": "(dough|mash) in",
    "(?<!no )sparge": "sparge",
    "lager(ing)? (at|for|,)": "lager(ing)? cool",
    "ramp": "(ramp|evenly from)",
    "strike": "heat .+ of the water to",
    "at bottling": "at (bottling|packaging)",
    "champagne bottles": "heavy bottles",
}
"""Words for what is done, and what a page says for each, the same word but for a few; a dot is a blank or a hyphen."""

KG = {"kg": 1.0, "kilo": 1.0, "g": 0.001, "lb": 0.45359237, "lbs": 0.45359237, "oz": 0.45359237 / 16}
"""A pound is 0.45359237 kg by definition (NIST Handbook 44, Appendix C), and has sixteen ounces."""

WEIGHED = re.compile(r"(?<![\d./])(\d+/\d+|[\d.]+|half a) ?(kg|kilo|g|lbs?|oz)\b")
DOSED = re.compile(r"[\d.]+ ?(%|IBU|g/L|cup) ")

WEIGHABLE = frozenset(LINES) - {"yeast", "water"}
DONE = ("mash", "hops", "malts", "fruit", "finings and spices", "yeast", "ferment", "carbonation")


@dataclass(frozen=True, slots=True)
class Natural:
    """The book of all these recipes, and its pages."""

    book: Book
    plans: Mapping[str, Plan]
    files: Mapping[str, bytes]
    problems: tuple[str, ...]
    shelves: Pantry

    def page(self, slug: str) -> str:
        """What its pages say of what goes in and is done, in small letters; no prose, no advice."""
        parts = []
        for name, sections in PAGES.items():
            page = BeautifulSoup(self.files[f"{slug}{name}"], "lxml")
            parts += [page.find("section", attrs={"aria-labelledby": it}) for it in sections]
            parts += page.find_all("main") if name == "/day.html" else []
        assert parts[0]
        assert parts[-1]
        return folded(" ; ".join(part.get_text(" ") for part in parts if part))

    def told(self, slug: str) -> list[str]:
        """The errors of a recipe."""
        return [told for told in self.problems if told.startswith(f"{slug}.md:") and ": error: " in told]


@cache
def natural() -> Natural:
    """All of them in one book, worked out and built once."""
    frames: FrameCache = MemoryCache()
    with TemporaryDirectory() as folder:
        for path in HERE.glob("recipes/*.md"):
            copy(path, folder)
        (Path(folder) / "book.yaml").write_text(BOOK, "utf-8")
        problems = Problems()
        book = read_book(Path(folder), problems)
        assert book is not None
        plans = plan_book(book, problems)
        files = make_site(book, plans, problems, frames, folder=Path(folder))
    return Natural(
        book,
        {plan.recipe.slug: plan for plan in plans},
        files,
        tuple(map(str, problems)),
        Pantry.load(None, Problems()),
    )


def front(slug: str) -> Mapping[str, str | list[str | dict[object, str]]]:
    """A recipe's lines as YAML has them, without our reader."""
    found: Mapping[str, str | list[str | dict[object, str]]] = yaml.safe_load(TEXTS[slug].split("---\n")[1])
    return found


def lines_of(slug: str, section: str) -> list[str]:
    """The lines of one of its sections, none where it has no such."""
    found = front(slug).get(section, [])
    lines = [found] if isinstance(found, str) else found
    return [it if isinstance(it, str) else ", ".join(f"{value}, {key}" for key, value in it.items()) for it in lines]


def named(slug: str) -> Iterator[tuple[str, str, re.Pattern[str]]]:
    """Each ingredient line of a recipe, its section, and what it must be called where it is bought."""
    own = [(it, line) for it in LINES for line in lines_of(slug, it)]
    for (section, line), wanted in zip(own, WANTED[slug], strict=True):
        typed, _, listed = wanted.partition(" = ")
        if wanted != "-":
            assert typed in folded(line), f"{typed} is not in {line}"
            yield section, line, re.compile(listed or typed)


def folded(words: str) -> str:
    """Small letters without marks, each run of blanks one."""
    bare = "".join(letter for letter in unicodedata.normalize("NFKD", words) if not unicodedata.combining(letter))
    return " ".join(bare.lower().split())


def bought(slug: str) -> tuple[Purchase, ...]:
    return shopping([natural().plans[slug]])


def test_there_are_forty_two_and_hardly_any_is_not_read() -> None:
    assert len(TEXTS) == 42
    assert len(READ) >= 38
    assert WANTED.keys() >= set(READ)


@pytest.mark.parametrize("slug", READ)
def test_it_is_read_without_an_error(slug: str) -> None:
    assert natural().told(slug) == []
    assert f"{slug}.html" in natural().files


@pytest.mark.parametrize("slug", UNREAD)
def test_what_is_not_read_is_told_the_one_thing_to_change(slug: str) -> None:
    told = natural().told(slug)
    assert len(told) == 1
    assert UNREAD[slug] in told[0]


@pytest.mark.parametrize("slug", READ)
def test_every_ingredient_is_bought(slug: str) -> None:
    names = [folded(purchase.name) for purchase in bought(slug)]
    for _, line, wanted in named(slug):
        assert any(map(wanted.search, names)), f"{line} is not in {names}"


@pytest.mark.parametrize("slug", READ)
def test_every_ingredient_is_in_the_data(slug: str) -> None:
    data = json.loads(natural().files[f"{slug}/figures.json"])
    told = folded(json.dumps(data["ingredients"], ensure_ascii=False))
    for _, line, wanted in named(slug):
        assert wanted.search(told), f"{line} is not in {told}"


@pytest.mark.parametrize("slug", READ)
@pytest.mark.parametrize("hops", [True, False], ids=["hops", "all else"])
def test_what_is_weighed_is_bought_to_the_gram(slug: str, hops: bool) -> None:
    """So of two lines of one thing neither is left out."""
    lines = [line for section, line, _ in named(slug) if section in WEIGHABLE and (section == "hops") is hops]
    weights = [WEIGHED.search(line) for line in lines]
    if any(DOSED.match(line) for line in lines):
        pytest.skip("its weights are worked out")
    listed = sum(
        it.amount.number * KG[it.amount.unit]
        for it in bought(slug)
        if (it.section == "Hops") is hops
        and it.section not in ("Yeast", "Water, salts and acids")
        and "priming" not in it.name
        and not re.search("(?i)juice|hop extract|amylase", it.name)  # which is poured, or stands under water
        and it.amount is not None
        and it.amount.unit in KG
    )
    assert listed == pytest.approx(
        sum(float(Fraction(it[1].replace("half a", "1/2"))) * KG[it[2]] for it in weights if it), rel=1e-6
    )


@pytest.mark.parametrize("slug", READ)
def test_its_page_says_what_is_done_by_the_author_s_own_words(slug: str) -> None:
    page = natural().page(slug)
    own = folded(" ; ".join(line for it in DONE for line in lines_of(slug, it)))
    for role, shown in ROLES.items():
        if said := re.search(rf"\b{role}", own):
            assert re.search(rf"\b{shown}", page), f"{said[0]} is not on the page"


@pytest.mark.parametrize("slug", READ)
@pytest.mark.parametrize("us", [False, True], ids=["metric", "US"])
def test_what_a_batch_keeps_of_it_gives_the_same_figures(slug: str, us: bool) -> None:
    recipe, book = natural().plans[slug].recipe, natural().book
    text, problems = as_text(recipe, us=us), Problems()
    again = read_recipe(text, "again.md", book.brewhouses, book.brewhouse, Desk(natural().shelves, problems))
    assert again is not None, ([*map(str, problems)], text)
    assert not list(problems.errors())
    before, after = (figures(it, natural().plans[slug].brewhouse) for it in (recipe, again))
    assert before.keys() == after.keys(), text
    for name, number in before.items():
        assert after[name] == pytest.approx(number, rel=2e-3, abs=2e-4), f"{name}\n{text}"


def figures(recipe: Recipe, brewhouse: Brewhouse) -> Mapping[str, float]:
    book = natural().book
    worked = work_out(recipe, brewhouse, book.bitterness_model, book.colour_model)
    return {name: value.number for name, value in named_figures(worked).items()}
