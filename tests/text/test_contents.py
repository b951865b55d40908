"""What lies in a book's folder besides recipes: what is passed over, what is named, and recipes in folders."""

from pathlib import Path

import pytest

from gristbook.cli import main
from gristbook.interface import Book
from gristbook.problems import Problems
from gristbook.text.book import read_book

RECIPE = """---
title: {title}
malts: 4 kg pale ale malt
hops: 28 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g american ale yeast, clean, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
carbonation: 2.2 volumes, primed with table sugar
---
Words.
"""
HALF = RECIPE.format(title="A").removesuffix("---\nWords.\n")


def read(folder: Path, **texts: str) -> tuple[list[str], list[str]]:
    """The addresses of the recipes and every problem of a book with some texts, `a__b_md` for `a/b.md`."""
    for name, text in {"book_yaml": "title: A book\n", **texts}.items():
        path = folder / name.replace("__", "/").replace("_", ".")
        path.parent.mkdir(exist_ok=True, parents=True)
        path.write_text(text, "utf-8")
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    return [f"{recipe.place.path} {recipe.slug}" for recipe in book.recipes], list(map(str, problems))


@pytest.mark.parametrize("name", ["README_md", "readme_md", "LICENSE_md", "CHANGES_md", "winter__README_md"])
def test_a_readme_is_no_recipe(tmp_path: Path, name: str) -> None:
    assert read(tmp_path, a_md=RECIPE.format(title="A"), **{name: "# A book\n\nWords.\n"}) == (["a.md a"], [])


@pytest.mark.parametrize("text", [HALF, HALF.removeprefix("---\n"), HALF.removeprefix("---\n") + "---\nWords.\n"])
def test_half_of_a_recipe_is_an_error_even_in_a_readme(tmp_path: Path, text: str) -> None:
    recipes, problems = read(tmp_path, README_md=text)
    assert recipes == []
    (problem,) = problems
    assert problem.startswith("README.md:1:1: error: ")


def test_a_recipe_that_is_called_readme_is_one(tmp_path: Path) -> None:
    assert read(tmp_path, README_md=RECIPE.format(title="A")) == (["README.md README"], [])


def test_recipes_may_lie_in_folders(tmp_path: Path) -> None:
    recipes, problems = read(tmp_path, a_md=RECIPE.format(title="A"), winter__b_md=RECIPE.format(title="B"))
    assert (recipes, problems) == (["a.md a", "winter/b.md b"], [])
    book = Book(tmp_path)
    assert book.plan("b").plan.recipe.title == book.plan("winter/b.md").plan.recipe.title == "B"


def test_a_recipe_of_the_same_name_in_another_folder_is_an_error(tmp_path: Path) -> None:
    recipes, problems = read(tmp_path, a_md=RECIPE.format(title="A"), winter__a_md=RECIPE.format(title="B"))
    assert recipes == ["a.md a"]
    assert problems == [
        'winter/a.md:1:1: error: no page can be called "a": on many disks it is the same as a.md; expected another name'
    ]


def test_a_batch_lies_in_the_folder_beside_its_recipe_wherever_that_is(tmp_path: Path) -> None:
    read(tmp_path, winter__b_md=RECIPE.format(title="B"))
    assert main(["brew", str(tmp_path / "winter" / "b.md"), "--on", "2026-03-14"]) == 0
    assert (tmp_path / "winter" / "b" / "2026-03-14.md").is_file()
    assert read(tmp_path) == (["winter/b.md b"], [])
    book = read_book(tmp_path, Problems())
    assert book is not None
    assert [batch.recipe for batch in book.batches] == ["b"]


def test_a_chapter_may_name_a_recipe_with_its_folder(tmp_path: Path) -> None:
    book = "title: A book\nchapters:\n  - title: Winter\n    recipes: [winter/b, a.md]\n"
    texts = {"a_md": RECIPE.format(title="A"), "winter__b_md": RECIPE.format(title="B")}
    assert read(tmp_path, book_yaml=book, **texts)[1] == []


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("stout_markdown", "stout.markdown:1:1: warning: nobody reads this file; expected stout.md, if it is a page"),
        ("stout_txt", "stout.txt:1:1: warning: nobody reads this file; expected stout.md, if it is a page"),
        ("stout_yaml", "stout.yaml:1:1: warning: nobody reads this file; expected stout.md, if it is a page"),
        ("pages__b_markdown", "pages/b.markdown:1:1: warning: nobody reads this file; expected b.md, if it is a page"),
        ("book_yml", "book.yml:1:1: warning: a second book, which nobody reads; expected one book.yaml a book"),
        (
            "winter__book_yaml",
            "winter/book.yaml:1:1: warning: a second book, which nobody reads; expected one book.yaml a book",
        ),
    ],
)
def test_a_text_that_nobody_reads_is_named(tmp_path: Path, name: str, said: str) -> None:
    assert read(tmp_path, **{name: RECIPE.format(title="A")}) == ([], [said])


@pytest.mark.parametrize("name", [".notes_txt", "requirements_txt", "LICENSE", "a__2026-03-14_csv", "a__log_txt"])
def test_what_is_nobodys_recipe_is_passed_over(tmp_path: Path, name: str) -> None:
    name = name.replace(".notes", "_notes")
    assert read(tmp_path, a_md=RECIPE.format(title="A"), **{name: "words\n"}) == (["a.md a"], [])


def test_vessels_that_nobody_described_fit_the_batch_and_are_said_to_be_assumed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """1 L instead of 20: a twentieth of 1.5 L and of 1 L stays behind, and the surface of a pot of the same shape is
    20^(2/3) = 7.37 times as small, so that 3/7.37 = 0.407 L/h steam away.
    """
    text = RECIPE.format(title="A").replace("malts: 4 kg", "batch: 1 L\nmalts: 0.2 kg")
    read(tmp_path, a_md=text.replace("28 g", "1.4 g"))
    plan = Book(tmp_path).plan("a")
    house = plan.plan.brewhouse
    kept = (house.left_in_kettle, house.left_in_fermenter, house.boil_off)
    assert [value.number for value in kept] == pytest.approx([0.075, 0.05, 0.407], abs=5e-4)
    assert plan["beer-to-package"].number == pytest.approx(0.95)
    main(["check", str(tmp_path)])
    assert capsys.readouterr().out.count("usual vessels are assumed") == 1


def test_what_a_described_brewhouse_does_not_say_goes_with_the_batch(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """1 L in a set for 20 L that says what stays in its kettle: a twentieth of 1 L stays in the fermenter, and
    3 L/h / 20^(2/3) = 0.407 L/h steam away, so that 1 + 0.06 + 0.407 = 1.467 L are boiled.
    """
    text = RECIPE.format(title="A").replace("malts: 4 kg", "batch: 1 L\nmalts: 0.2 kg")
    book = "title: A book\nbrewhouses:\n  mill:\n    batch: 20 L\n    left in kettle: 60 mL\n"
    read(tmp_path, book_yaml=book, a_md=text.replace("28 g", "1.4 g"))
    plan = Book(tmp_path).plan("a")
    assert plan["boil-volume"].number == pytest.approx(1.467, abs=5e-4)
    assert plan["beer-to-package"].number == pytest.approx(0.95)
    assert plan.plan.brewhouse.batch.number == 20
    main(["check", str(tmp_path)])
    out = capsys.readouterr().out
    assert out.count("the brewhouse mill does not say boil-off, beer left in the fermenter: it is assumed") == 1


def test_a_described_kitchen_of_one_litre_loses_no_litre_to_a_default(tmp_path: Path) -> None:
    book = "title: A book\nbrewhouses:\n  jar:\n    batch: 1 L\n    boil-off: 0.9 L/h\n"
    read(tmp_path, book_yaml=book, a_md=RECIPE.format(title="A").replace("4 kg", "0.2 kg").replace("28 g", "1.4 g"))
    house = Book(tmp_path).plan("a").plan.brewhouse
    assert (house.left_in_kettle.number, house.boil_off.number) == pytest.approx((0.075, 0.9))
