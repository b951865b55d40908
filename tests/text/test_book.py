"""A book's folder: what is read of it, what is left out, and what is said of that."""

from cProfile import Profile
from pathlib import Path
from pstats import Stats

import pytest

from gristbook.model.book import Book
from gristbook.problems import Problems
from gristbook.targets import models
from gristbook.text.book import BITTERNESS_MODELS, COLOUR_MODELS, read_book

BOOK = "title: A book\naddress: https://quillmere.example/\n"
RECIPE = """---
title: {title}
malts:
  - 4 kg pale ale malt
yeast:
  - 11 g american ale yeast, clean, dried
mash:
  - 67 °C, 60 min
---
"""


def read(folder: Path, book: str | None = BOOK, **recipes: str) -> tuple[Book | None, list[str]]:
    if book is not None:
        (folder / "book.yaml").write_text(book, "utf-8")
    for slug, text in recipes.items():
        (folder / f"{slug}.md").write_text(text, "utf-8")
    problems = Problems()
    found = read_book(folder, problems)
    return found, [str(problem) for problem in problems]


def slugs(book: Book | None) -> list[str]:
    assert book is not None
    return [recipe.slug for recipe in book.recipes]


def test_the_models_that_a_book_may_name_are_those_that_can_be_worked_out() -> None:
    assert list(BITTERNESS_MODELS) == list(models.BITTERNESS)
    assert list(COLOUR_MODELS) == list(models.COLOUR)


def test_a_book_is_in_a_language_that_our_own_texts_are_in(tmp_path: Path) -> None:
    assert read(tmp_path, f"{BOOK}language: en-GB\n")[1] == []
    told = 'book.yaml:3:11: error: language cannot be "de"; expected en or en-GB or en-US'
    assert read(tmp_path, f"{BOOK}language: de\n")[1] == [told]


def test_a_folder_without_a_book_is_one_problem(tmp_path: Path) -> None:
    assert read(tmp_path, None) == (
        None,
        ["book.yaml:1:1: error: no book.yaml here; expected a file that begins with title: a name"],
    )


@pytest.mark.parametrize("text", ["", "- a list\n", "words\n"])
def test_a_book_that_is_no_table_is_one_problem(tmp_path: Path, text: str) -> None:
    assert read(tmp_path, text)[1] == ["book.yaml:1:1: error: book.yaml is not a table; expected title: a name"]


def test_a_file_that_is_not_text_is_a_problem_of_that_file_only(tmp_path: Path) -> None:
    (tmp_path / "picture.md").write_bytes(b"\x89PNG\xff\xfe")
    book, problems = read(tmp_path, a=RECIPE.format(title="A"))
    assert problems == ["picture.md:1:1: error: this file is not text; expected plain UTF-8"]
    assert slugs(book) == ["a"]


def test_line_ends_of_other_systems_shift_no_line(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_bytes(RECIPE.format(title="A").replace("pale", "pail").replace("\n", "\r\n").encode())
    assert [problem.split(": ")[0] for problem in read(tmp_path)[1]] == ["a.md:4:10"]


def test_a_recipe_with_an_error_is_left_out_and_the_others_stay(tmp_path: Path) -> None:
    book, problems = read(
        tmp_path, a=RECIPE.format(title="A"), b=RECIPE.format(title="[B]"), c=RECIPE.format(title="C")
    )
    assert problems == ["b.md:2:8: error: title cannot be a list; expected words"]
    assert slugs(book) == ["a", "c"]


MILL = "brewhouse: mill\nbrewhouses:\n  mill: {{batch: 20 L, {mill}}}\n  stove: {{batch: 10 L, mash: bag}}\n"


def brewhouses(folder: Path, mill: str, text: str = MILL) -> tuple[list[str], list[str]]:
    at_the_stove = RECIPE.format(title="S").replace("malts:", "brewhouse: stove\nmalts:")
    book, problems = read(folder, BOOK + text.format(mill=mill), mill=RECIPE.format(title="M"), stove=at_the_stove)
    return slugs(book), problems


def test_two_brewhouses_serve_their_recipes(tmp_path: Path) -> None:
    assert brewhouses(tmp_path, "mash: sparge") == (["mill", "stove"], [])


@pytest.mark.parametrize(
    ("mill", "said"),
    [
        ("efficiency: 0 %", 'book.yaml:5:35: error: "0 %" is too little; expected a share, as 72 % ± 4, at least 1 %'),
        ("efficiency: 72", 'book.yaml:5:35: error: "72" is not a share; expected a share, as 72 % ± 4'),
        ("efficency: 72 %", 'book.yaml:5:23: error: a brewhouse has no "efficency"; did you mean "efficiency"?'),
        ("left in kettle: 100 L", "book.yaml:5:39: error: left in kettle: as much as the whole batch; expected less"),
        ("left in fermenter: 20 L", "book.yaml:5:42: error: left in fermenter: as much as the whole batch; "
         "expected less"),
        ("mash: spargge", 'book.yaml:5:29: error: mash cannot be "spargge"; expected sparge or bag or none; '
         'did you mean "sparge"?'),
        ("altitude: 9000 m", 'book.yaml:5:33: error: "9000 m" is too much; expected a height, as 40 m, at most 5500 m'),
        ("boil-off: 3 L", 'book.yaml:5:33: error: "3 L" is not a rate; expected a rate, as 3 L/h'),
        ("kettle: [35 L]", "book.yaml:5:31: error: kettle cannot be a list; expected a volume, as 20 L"),
    ],
)  # fmt: skip
def test_what_is_brewed_in_a_brewhouse_that_cannot_be_read_is_left_out(tmp_path: Path, mill: str, said: str) -> None:
    assert brewhouses(tmp_path, mill) == (["stove"], [said])


def test_a_usual_brewhouse_that_is_not_there_is_no_other(tmp_path: Path) -> None:
    named = MILL.replace("brewhouse: mill", "brewhouse: mil")
    assert brewhouses(tmp_path, "mash: sparge", named) == (
        ["stove"],
        ['book.yaml:3:12: error: unknown brewhouse "mil"; did you mean "mill"?'],
    )


def test_a_brewhouse_that_is_no_table_is_told(tmp_path: Path) -> None:
    assert brewhouses(tmp_path, "", MILL.replace("{{batch: 20 L, {mill}}}", "20 L")) == (
        ["stove"],
        ["book.yaml:5:9: error: mill is not a brewhouse; expected a table, as batch: 20 L"],
    )


def test_a_kitchen_below_the_sea_has_its_altitude(tmp_path: Path) -> None:
    assert brewhouses(tmp_path, "altitude: -4 m") == (["mill", "stove"], [])


def test_a_key_without_a_value_is_a_default_and_not_nothing(tmp_path: Path) -> None:
    book, problems = read(tmp_path, BOOK + "brewhouses:\n  mill:\n    batch: 20 L\n    kettle:\n    efficiency:\n")
    assert problems == []
    assert book is not None
    mill = book.brewhouses["mill"]
    assert mill.kettle is None
    assert mill.efficiency.number == pytest.approx(0.72)


def test_a_book_without_brewhouses_has_one(tmp_path: Path) -> None:
    book, _ = read(tmp_path, a=RECIPE.format(title="A"))
    assert book is not None
    assert list(book.brewhouses) == [book.brewhouse] == ["home"]


@pytest.mark.parametrize(
    ("chapters", "said"),
    [
        ("[{title: One, recipes: [a, b]}]", []),
        ("[{title: One, recipes: a}, {title: Two, recipes: b}]", []),
        ("[{title: One, recipes: [a, bb]}]", ['book.yaml:3:38: error: no recipe "bb.md"; did you mean "b"?',
                                              "b.md:1:1: warning: this recipe stands in no chapter; "
                                              "expected its name in book.yaml"]),
        ("[{title: One, recipes: [a, b, a]}]", ['book.yaml:3:41: error: "a" stands in a chapter already']),
        ("[{recipes: [a, b]}]", ["book.yaml:3:12: error: a chapter needs title; expected title: words"]),
        ("[{title: One, recipes: [a, [b]]}]", ["book.yaml:3:38: error: a recipe's name is a word",
                                               "b.md:1:1: warning: this recipe stands in no chapter; "
                                               "expected its name in book.yaml"]),
        ("[One]", ["book.yaml:3:12: error: a chapter is a table; expected title: a name"]),
    ],
)  # fmt: skip
def test_chapters_hold_every_recipe_once(tmp_path: Path, chapters: str, said: list[str]) -> None:
    recipes = {slug: RECIPE.format(title=slug) for slug in "ab"}
    assert sorted(read(tmp_path, f"{BOOK}chapters: {chapters}\n", **recipes)[1]) == sorted(said)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("units: US", []),
        ("units: us", ['book.yaml:3:8: error: units cannot be "us"; expected metric or US; did you mean "US"?']),
        ("bitterness: rager 1990", []),
        ("bitterness: tinset 1997", ['book.yaml:3:13: error: bitterness cannot be "tinset 1997"; expected '
                                     'tinseth 1997 or rager 1990 or garetz 1994 or daniels 1996; '
                                     'did you mean "tinseth 1997"?']),
        ("colour: morey", ['book.yaml:3:9: error: colour cannot be "morey"; expected morey 1995 or daniels 1995 or '
                           'mosher 1995']),
        ("titel: x", ['book.yaml:3:1: error: a book has no "titel"; did you mean "title"?']),
        ("title: x", ['book.yaml:3:1: error: "title" is given twice; expected it once (line 1 has it)']),
    ],
)  # fmt: skip
def test_a_books_own_words_are_held_to_what_they_may_be(tmp_path: Path, line: str, said: list[str]) -> None:
    assert read(tmp_path, f"{BOOK}{line}\n")[1] == said


def test_the_authors_own_malts_serve_the_books_recipes(tmp_path: Path) -> None:
    (tmp_path / "pantry").mkdir()
    own = "- name: Mill floor malt\n  kind: base\n  extract: 80 %\n  colour: 8 EBC\n  source: the miller\n"
    (tmp_path / "pantry" / "malts.yaml").write_text(own, "utf-8")
    book, problems = read(tmp_path, a=RECIPE.format(title="A").replace("pale ale malt", "mill floor malt"))
    assert problems == []
    assert slugs(book) == ["a"]


def test_pages_are_read_and_their_problems_told(tmp_path: Path) -> None:
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages" / "about.md").write_text("---\ntitle: About\n---\nWords.\n", "utf-8")
    (tmp_path / "pages" / "wrong.md").write_text("Words.\n", "utf-8")
    book, problems = read(tmp_path)
    assert problems == ['pages/wrong.md:1:1: error: no front matter; expected a first line "---"']
    assert book is not None
    assert [(page.slug, page.title, page.prose) for page in book.pages] == [("about", "About", "Words.\n")]


def test_a_brewhouse_may_learn_how_far_its_yeasts_go(tmp_path: Path) -> None:
    book, problems = learning(tmp_path, "attenuation: from batches")
    assert (book.brewhouses["mill"].learns, problems) == (("attenuation",), [])


def learning(folder: Path, line: str) -> tuple[Book, list[str]]:
    book, problems = read(folder, f"{BOOK}brewhouses:\n  mill:\n    batch: 20 L\n    {line}\n")
    assert book is not None
    return book, problems


@pytest.mark.parametrize(
    ("line", "learns", "number", "low"),
    [
        ("efficiency: 74 % ± 4", (), 0.74, 0.70),
        ("efficiency: from batches", ("conversion",), 0.72, 0.67),
        ("efficiency: from batches, 74 % ± 4", ("conversion",), 0.74, 0.70),
        ("efficiency: From batches , 70 %", ("conversion",), 0.70, 0.63),
        ("mash: bag\n    efficiency: from batches", ("conversion",), 0.72, 0.67),
        ("boil-off: from batches, 1 gal/h ± 0.1", ("boil_off",), 3.785411784, 0.9 * 3.785411784),
        ("boil-off: from batches", ("boil_off",), 3.0, 2.1),
        ("conversion: from batches, 93 %", ("conversion",), 0.93, 0.95 * 0.93),
        ("left in kettle: from batches", ("left_in_kettle",), 1.5, 0.6),
        ("left in fermenter: from batches, 0.5 L", ("left_in_fermenter",), 0.5, 0.2),
    ],
)
def test_a_brewhouse_may_learn_a_figure_from_its_batches(
    tmp_path: Path, line: str, learns: tuple[str, ...], number: float, low: float
) -> None:
    book, problems = learning(tmp_path, line)
    mill = book.brewhouses["mill"]
    before = mill.efficiency if "efficiency" in line else getattr(mill, learns[0])
    assert (mill.learns, problems) == (learns, [])
    assert (before.number, before.low) == (pytest.approx(number), pytest.approx(low))
    assert before.place is not None


@pytest.mark.parametrize(
    ("line", "efficiency", "number", "unit"),
    [
        ("efficiency: 74 %", 0.74, 1.045, "SG"),
        ("efficiency: 74 % at 1.050", 0.74, 1.050, "SG"),
        ("efficiency: from batches, 74 % ± 4 At 12 °P", 0.74, 12, "°P"),
        ("boil-off: 3 L/h", 0.72, 1.045, "SG"),
    ],
)
def test_an_efficiency_is_stated_of_an_ordinary_wort(
    tmp_path: Path, line: str, efficiency: float, number: float, unit: str
) -> None:
    book, problems = learning(tmp_path, line)
    mill = book.brewhouses["mill"]
    assert problems == []
    assert mill.efficiency is not None
    assert mill.efficiency.number == pytest.approx(efficiency)
    assert (mill.ordinary_gravity.number, mill.ordinary_gravity.unit) == (pytest.approx(number), unit)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("efficiency: from batches, 74", '5:31: error: "74" is not a share in "from batches, 74"; '
         "expected a share, as 72 % ± 4"),
        ("efficiency: 74 % at 1.5", '5:25: error: "1.5" is too much; expected a gravity, as 1.048, at most 1.2'),
        ("attenuation: 75 %", '5:18: error: attenuation cannot be "75 %"; expected from batches'),
        ("absorption: from batches", '5:17: error: "from batches" is not litres a kilogram; '
         "expected litres a kilogram, as 1.0 L/kg"),
        ("boil-off: from batches, 3 L", '5:29: error: "3 L" is not a rate in "from batches, 3 L"; '
         "expected a rate, as 3 L/h"),
        ("left in kettle: from batches, 20 L", "5:21: error: left in kettle: as much as the whole batch; "
         "expected less"),
    ],
)  # fmt: skip
def test_what_cannot_be_learnt_is_told(tmp_path: Path, line: str, said: str) -> None:
    (tmp_path / "book.yaml").write_text(f"{BOOK}brewhouses:\n  mill:\n    batch: 20 L\n    {line}\n", "utf-8")
    problems = Problems()
    read_book(tmp_path, problems)
    assert [str(problem) for problem in problems] == [f"book.yaml:{int(said[0]) + 1}{said[1:]}"]


def test_a_book_is_read_without_work_that_nobody_sees() -> None:
    """In calls, not in seconds: near names that are not shown, poisons that no word begins, units asked of others."""
    demo = Path(__file__).parents[2] / "recipes"
    read_book(demo, Problems())  # what comes with the tool is read once
    with Profile() as profile:
        book = read_book(demo, Problems())
    assert book is not None
    calls = Stats(profile).total_calls  # type: ignore[attr-defined]
    assert calls < 32_000 * len(book.recipes) + 450 * len(book.larder)  # each record becomes an ingredient once
