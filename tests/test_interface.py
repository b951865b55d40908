"""The Python interface: a book read, its problems, a plan's figures and their working, and its pages written."""

import os
from pathlib import Path

import pytest

import gristbook
from gristbook.interface import Book, NoPlan

BOOK = Path(__file__).parent.parent / "recipes"
PLAIN = """\
---
title: Plain
batch: 20 L
malts:
  - 4 kg pale ale malt
hops:
  - 20 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g English ale, attenuative
mash: 67 °C, 60 min
---
"""


@pytest.fixture(scope="module")
def book() -> Book:
    return gristbook.read(BOOK)


def test_a_figure_has_its_number_unit_range_and_words(book) -> None:  # type: ignore[no-untyped-def]
    """40 g of 4.5 % alpha acids: by Tinseth's formula 0.256 of 1800 mg, at a mean of 1.038, goes into 21.5 L."""
    bitterness = book.plan("quillmere-best")["hop.fuggle/bitterness"]
    assert bitterness.number == pytest.approx(1800 * 0.2562 / 21.5, abs=0.05)
    assert bitterness.unit == "IBU"
    assert bitterness.low < bitterness.number < bitterness.high
    assert bitterness.words == "bitterness of Fuggle"
    assert bitterness.mover


def test_the_working_leads_from_the_author_s_line_to_the_figure(book) -> None:  # type: ignore[no-untyped-def]
    lines = book.plan("quillmere-best")["hop.fuggle/bitterness"].working.splitlines()
    line = next(at for at, text in enumerate((BOOK / "quillmere-best.md").read_text("utf-8").splitlines(), 1)
                if "Fuggle" in text)  # fmt: skip
    assert f"weight of Fuggle = 40 g: the recipe: 40 g (quillmere-best.md:{line})" in lines
    assert lines[-1].startswith("bitterness of Fuggle = ")
    assert len(set(lines)) == len(lines)
    assert any("Tinseth" in it for it in lines)


def test_a_plan_is_asked_for_in_another_size_house_and_source(book) -> None:  # type: ignore[no-untyped-def]
    home, small = book.plan("quillmere-best"), book.plan("quillmere-best", batch="10 L")
    assert small["into-the-fermenter"].number == pytest.approx(home["into-the-fermenter"].number / 2, rel=0.02)
    assert book.plan("quillmere-best", source="extract", brewhouse="pot", batch="10 L").words.endswith("extract")
    assert [*home][:2] == ["base-malt", "specialty-malt"]
    assert "original-gravity" in home
    with pytest.raises(KeyError):
        home["original gravity"]


def test_a_plan_is_asked_for_of_another_text_than_the_file_s(book) -> None:  # type: ignore[no-untyped-def]
    """Twice the Fuggle gives what it gave once more; the file and the plan of it stay, and so does what was taught."""
    text = (BOOK / "quillmere-best.md").read_text("utf-8")
    home = book.plan("quillmere-best")
    assert [it.number for it in book.plan("quillmere-best", text=text).values()] == [it.number for it in home.values()]
    more = text.replace("40 g Fuggle", "80 g Fuggle").replace("bitterness: 32 ± 3", "bitterness: 52 ± 5")
    by = book.plan("quillmere-best", text=more)["bitterness"].number - home["bitterness"].number
    assert by == pytest.approx(home["hop.fuggle/bitterness"].number, rel=1e-6)
    with pytest.raises(NoPlan, match=r'quillmere-best.md:15:.*unknown unit "gg"'):
        book.plan("quillmere-best", text=text.replace("40 g Fuggle", "40 gg Fuggle"))
    assert book.plan("quillmere-best")["bitterness"].number == home["bitterness"].number


@pytest.mark.parametrize(
    ("recipe", "asked", "words"),
    [
        ("nowhere", {}, "there is no such file"),
        ("book.yaml", {}, "no recipe of the book"),
        ("quillmere-best", {"batch": "10 kg"}, "is not a volume"),
        ("quillmere-best", {"brewhouse": "castle"}, "castle"),
        ("quillmere-best", {"edition": "no 10 L"}, "asks for nothing"),
    ],
)
def test_what_cannot_be_planned_says_why(book, recipe, asked, words) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(NoPlan, match=words) as refused:
        book.plan(recipe, **asked)
    assert len(refused.value.problems) == 1
    assert len(book.problems) == 0


def test_what_is_wrong_in_a_book_stands_in_its_problems(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\n", "utf-8")
    (tmp_path / "odd.md").write_text("---\ntitle: Odd\nmalts:\n  - 4 kgg pale ale malt\n---\n", "utf-8")
    book = gristbook.read(str(tmp_path))
    assert "odd.md" in {problem.place.path for problem in book.problems}
    with pytest.raises(NoPlan, match="kgg"):
        book.plan("odd")
    assert gristbook.read(tmp_path / "nothing").build(tmp_path / "out") is None


def test_what_is_wrong_in_a_theme_keeps_nobody_from_brewing(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\n", "utf-8")
    (tmp_path / "plain.md").write_text(PLAIN, "utf-8")
    (tmp_path / "theme").mkdir()
    (tmp_path / "theme" / "recipe.html").write_text("{% if %}", "utf-8")
    book = gristbook.read(tmp_path)
    first = book.plan("plain")["bitterness"].number
    assert book.check() == 1
    assert [it.place.path for it in book.problems.errors()] == ["theme/recipe.html"]
    assert book.plan("plain")["bitterness"].number == first


def test_pages_are_written_and_counted(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "book.yaml").write_text("title: A book\n", "utf-8")
    (tmp_path / "book" / "plain.md").write_text(PLAIN, "utf-8")
    site = gristbook.read(tmp_path / "book").build(tmp_path / "out")
    assert site is not None
    assert (site.beers, site.changed, site.left) == (1, 0, ())
    written = sum(len(files) for _, _, files in os.walk(tmp_path / "out"))
    assert site.new == written - 1  # the list of what we wrote is not a page
    again = gristbook.read(tmp_path / "book").build(str(tmp_path / "out"))
    assert again is not None
    assert (again.new, again.same) == (0, site.new)
