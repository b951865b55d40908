"""`gristbook figures`: a recipe's figures in a terminal, in any size, for people and for programs."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from gristbook import cli
from gristbook.model.figures import words_of
from gristbook.problems import Problems
from gristbook.site.amounts import amount
from gristbook.site.book.feeds import COLUMNS
from gristbook.targets.editions.make import MadeEdition, editions_of
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book


def plan_of(book: Path, slug: str = "bitter"):  # type: ignore[no-untyped-def]
    problems = Problems()
    read = read_book(book, problems)
    assert read is not None
    return next(plan for plan in plan_book(read, problems) if plan.recipe.slug == slug)


def figures(ran) -> dict[str, dict[str, object]]:  # type: ignore[no-untyped-def]
    assert ran.status == cli.FINE, ran.err
    assert ran.err == ""
    data = json.loads(ran.out)
    assert isinstance(data["figures"], dict)
    return data["figures"]


def test_every_figure_of_the_plan_is_printed_with_its_range(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("figures", "book/bitter.md")
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert ran.out.startswith("Reed Bank Bitter, 20 L in the hall brewhouse\n")
    lines = {line[2:40].strip(): line[40:] for line in ran.out.splitlines() if line.startswith("  ")}
    plan = plan_of(book)
    assert plan.recipe.yeasts[0].dried
    assert "packs of liquid yeast" not in lines  # nor on its page, where dried yeast goes in
    for name, value in plan.named.items():
        if name == "packs-of-liquid-yeast":
            continue
        metric = amount(value).metric.replace("\N{NO-BREAK SPACE}", " ")
        assert lines[words_of(name)].strip().startswith(metric), name
    assert "moved most by mash efficiency" in lines["original gravity"]
    assert "3.60 kg (7 lb 15 oz)       Pale ale malt" in ran.out
    primed = amount(plan.figures.packaging.sugar).metric.replace("\N{NO-BREAK SPACE}", " ")
    assert any(line.startswith(f"  {primed}") and line.endswith(", for priming") for line in ran.out.splitlines())


def test_the_same_figures_are_printed_for_a_program(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("figures", "book/bitter.md", "--json")
    plan = plan_of(book)
    data = json.loads(ran.out)
    assert data["recipe"] == "Reed Bank Bitter"
    assert list(data["figures"]) == list(plan.sheet)
    for name, value in plan.named.items():
        figure = data["figures"][name]
        assert set(figure) == {"words", "value", "unit", "low", "high", "mover", "source"}
        assert figure["value"] == pytest.approx(value.number, rel=1e-8)
        assert figure["low"] <= figure["value"] <= figure["high"]
        assert (figure["unit"], figure["mover"]) == (value.unit, value.mover or None)
        assert figure["source"]
    assert (ran.status, ran.err) == (cli.FINE, "")


def test_another_batch_is_another_brew_of_the_same_strength(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    home, small = (
        figures(run("figures", "book/bitter.md", "--json")),
        figures(run("figures", "book/bitter.md", "--batch", "12 L", "--json")),
    )
    assert small["into-the-fermenter"]["value"] == pytest.approx(12.0)
    assert small["original-gravity"]["value"] == pytest.approx(home["original-gravity"]["value"], abs=0.0015)
    assert small["bitterness"]["value"] == pytest.approx(home["bitterness"]["value"], rel=0.05)
    assert small["mash-water"]["value"] < home["mash-water"]["value"]


def test_gallons_are_printed_first_for_a_batch_in_gallons(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("figures", "book/bitter.md", "--batch", "5 gal")
    assert ran.out.startswith("Reed Bank Bitter, 5 gal in the hall brewhouse\n")
    assert "5 gal (18.9 L)" in ran.out


@pytest.mark.parametrize("size", [(), ("--from", "extract")])
def test_gallons_are_printed_first_in_a_us_book(book: Path, run, size: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    settings = book / "book.yaml"
    settings.write_text(f"{settings.read_text('utf-8')}units: US\n", "utf-8")
    ran = run("figures", "book/bitter.md", *size)
    assert ran.out.startswith("Reed Bank Bitter, 5.3 gal in the hall brewhouse")
    assert "5.3 gal (20.0 L)" in ran.out
    assert "Reed Bank Bitter, 10 L in" in run("figures", "book/bitter.md", "--batch", "10 L").out


def test_from_extract_says_what_is_brewed_and_what_is_not_kept(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("figures", "book/bitter.md", "--from", "extract", "--batch", "10 L", "--brewhouse", "hob")
    assert ran.status == cli.FINE
    assert ran.out.startswith("Reed Bank Bitter, 10 L in the hob brewhouse, from malt extract\n")
    assert "Dried malt extract" in ran.out.partition("\n\n")[2]
    assert "Pale ale malt" not in ran.out
    assert "mash water" not in ran.out


def test_what_drifts_is_said_with_its_numbers(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    text = (book / "book.yaml").read_text(encoding="utf-8") + "editions: [extract 10 L in hob]\n"
    (book / "book.yaml").write_text(text, encoding="utf-8")
    (book / "dry.md").write_text(
        (book / "bitter.md").read_text(encoding="utf-8").replace("67 °C, 60 min", "63 °C, 90 min"), encoding="utf-8"
    )
    read = read_book(book, Problems())
    assert read is not None
    (made,) = editions_of(plan_of(book, "dry"), read)
    assert isinstance(made, MadeEdition)
    said = [drift.figure for drift in made.drifts if drift.said]
    assert "final-gravity" in said
    ran = run("figures", "book/dry.md", "--from", "extract", "--batch", "10 L", "--brewhouse", "hob")
    head = ran.out.partition("\n\n")[0].splitlines()[1 + len(made.notes) :]
    assert [line.partition(":")[0] for line in head] == [words_of(figure) for figure in said]
    assert all("as written" in line and "from the rounded amounts" in line for line in head)


WRONG = {
    "a size that is no size": (["--batch", "12 kgg"], 'unknown unit "kgg"'),
    "a size that is nothing": (["--batch", "a lot"], '"a lot" is not an edition'),
    "a size of nothing": (["--batch", "0 L"], "0 L"),
    "a size that is dropped": (["--batch", "no 12 L"], "asks for nothing"),
    "a brewhouse that is not there": (["--brewhouse", "hal"], 'did you mean "hall"?'),
    "a mash where there is none": (["--brewhouse", "hob"], "mash"),
    "a pot that is too small": (["--batch", "400 L", "--brewhouse", "hall"], "the pot of hall boils"),
    "grain that is grain already": (["--from", "grain"], "it is whole grain as it is"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_cannot_be_brewed_is_a_problem_of_the_command_line(case: str, book: Path, run) -> None:  # type: ignore[no-untyped-def]
    options, words = WRONG[case]
    for form in ([], ["--json"]):
        ran = run("figures", "book/bitter.md", *options, *form)
        assert ran.status == cli.PROBLEMS
        assert ran.out == ""
        assert ran.err.startswith("the command line: error: ")
        assert words in ran.err
        assert ran.err.endswith("1 error, no warnings\n")


def test_a_recipe_with_an_error_prints_it_and_no_figure(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    (book / "bitter.md").write_text("---\ntitle: Bitter\nmalts: 3 kgg pale ale malt\n---\n", encoding="utf-8")
    ran = run("figures", "book/bitter.md")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.startswith('book/bitter.md:3:10: error: unknown unit "kgg"')
    assert run("figures", "book/mild.md").status == cli.FINE


def test_a_book_with_an_error_answers_with_it(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    (book / "book.yaml").write_text((book / "book.yaml").read_text("utf-8") + "bitternes: x\n", encoding="utf-8")
    ran = run("figures", "book/bitter.md", "--json")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.startswith("book/book.yaml:")


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("book/nothing.md", "book/nothing.md:1:1: error: there is no such file"),
        ("book/book.yaml", "book/book.yaml:1:1: error: this is no recipe of the book"),
        ("elsewhere", "no book.yaml here or in any folder above"),
        ("elsewhere.md", "no book.yaml here or in any folder above"),
    ],
)
def test_what_is_no_recipe_is_a_problem(path: str, words: str, book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("figures", path)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert words in ran.err


def test_a_recipe_is_found_from_within_its_book(book: Path, run, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.chdir(book)
    assert run("figures", "bitter.md").status == cli.FINE
    assert run("figures", "nothing.md").err.startswith("nothing.md:1:1: error: ")


def test_a_call_without_a_recipe_or_from_something_else_is_a_wrong_call(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    assert run("figures", "book/bitter.md", "--from", "air").status == cli.USAGE
    ran = run("figures")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "no book.yaml here or in any folder above" in ran.err


def cells(ran, book: Path) -> dict[str, list[str]]:  # type: ignore[no-untyped-def]
    """What a table says of each beer, its columns parted by two blanks or more."""
    head, *lines = ran.out.splitlines()
    assert re.split(" {2,}", head.strip()) == ["batch", "gravity", "final", "strength", "bitterness", "colour", "gas"]
    assert len({len(line) for line in (head, *lines)}) == 1
    rows = [re.split(" {2,}", line) for line in lines]
    return {title: found for title, *found in rows}


def test_a_book_is_a_table_of_its_beers_in_the_order_of_its_chapters(book: Path, run, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    chapters = "chapters:\n  - title: First\n    recipes: [mild]\n"
    (book / "book.yaml").write_text((book / "book.yaml").read_text("utf-8") + chapters, "utf-8")
    ran = run("figures", "book")
    assert (ran.status, ran.err) == (cli.FINE, "")
    table = cells(ran, book)
    assert [*table] == ["Reed Bank Mild", "Reed Bank Bitter"]
    for slug, found in zip(("mild", "bitter"), table.values(), strict=True):
        alone = run("figures", f"book/{slug}.md").out
        assert found[0] == "20 L"
        for name, cell in zip(COLUMNS, found[1:], strict=True):
            assert re.search(rf"^  {words_of(name)} +{re.escape(cell)}(  |$)", alone, re.MULTILINE), name
    monkeypatch.chdir(book)
    assert run("figures").out == ran.out


def test_a_table_is_of_the_size_that_is_asked_for_and_in_the_books_own_units(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    assert {row[0] for row in cells(run("figures", "book", "--batch", "10 L"), book).values()} == {"10 L"}
    (book / "book.yaml").write_text("units: US\n" + (book / "book.yaml").read_text("utf-8"), "utf-8")
    assert {row[0] for row in cells(run("figures", "book"), book).values()} == {"5.3 gal"}  # 20 / 3.785 = 5.28


def test_a_table_for_a_program_has_the_same_beers_and_figures(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    beers = json.loads(run("figures", "book", "--json").out)["recipes"]
    assert [it["file"] for it in beers] == ["bitter.md", "mild.md"]
    for it in beers:
        alone = json.loads(run("figures", f"book/{it['file']}", "--json").out)
        assert list(it["figures"]) == list(COLUMNS)
        assert {name: alone["figures"][name] for name in COLUMNS} == it["figures"]
        assert (it["recipe"], it["batch in litres"]) == (alone["recipe"], alone["batch in litres"])


def test_a_table_fits_a_terminal_whatever_a_beer_is_called(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    text = (book / "mild.md").read_text("utf-8")
    (book / "mild.md").write_text(text.replace("Reed Bank Mild", "Mild " * 40), "utf-8")
    ran = run("figures", "book")
    assert {len(line) for line in ran.out.splitlines()} == {100}
    assert any(title.startswith("Mild Mild ") and title.endswith("…") for title in cells(ran, book))


def test_a_beer_that_cannot_be_brewed_is_told_and_the_others_stand_in_the_table(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    (book / "mild.md").write_text((book / "mild.md").read_text("utf-8").replace("2.4 kg", "2.4 kgg"), "utf-8")
    ran = run("figures", "book")
    assert (ran.status, [*cells(ran, book)]) == (cli.PROBLEMS, ["Reed Bank Bitter"])
    (told, count) = ran.err.splitlines()
    assert told.startswith('book/mild.md:5:9: error: unknown unit "kgg"')
    assert count == "1 error, no warnings"
    (book / "book.yaml").write_text((book / "book.yaml").read_text("utf-8") + "bitternes: x\n", encoding="utf-8")
    for form in ((), ("--json",)):
        ran = run("figures", "book", *form)
        assert (ran.status, ran.out) == (cli.PROBLEMS, "")
        assert "book/book.yaml" in ran.err


def test_what_speaks_against_its_gas_is_printed_too(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    recipe = book / "bitter.md"
    assert "Take care" not in run("figures", "book/bitter.md").out
    lines = [
        "carbonation: 4.5 volumes, keg" if line.startswith("carbonation:") else line
        for line in recipe.read_text("utf-8").splitlines()
    ]
    recipe.write_text("\n".join(lines), "utf-8")
    said = "More than 4 volumes is more than kegs are usually filled for"
    assert said in run("figures", "book/bitter.md").out.partition("\nTake care\n")[2]
    assert said in json.loads(run("figures", "book/bitter.md", "--json").out)["take care"][0]
