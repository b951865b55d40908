"""`gristbook brew`: a batch is begun with what stands today, and nothing that was written is ever overwritten."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import the_demo
import yaml
from jsonschema import Draft7Validator

from gristbook import cli
from gristbook.model.batch import Batch
from gristbook.problems import Problems
from gristbook.site.beer.blanks import afterwards, blanks
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.batches.frozen import frozen_plan
from gristbook.targets.beer.fermentation import hungriest
from gristbook.targets.figures import Plan
from gristbook.text.batch import read_batch
from gristbook.text.begun import Begun
from gristbook.text.book import read_book
from gristbook.text.values import Desk
from gristbook.text.writing import sections_of, speaks_us

DAY = "2026-03-14"


def brews_of(slug: str) -> list[tuple[Plan, str]]:
    """The plan of a recipe of the demo book and those of its editions, each with the edition's line."""
    return [(the_demo.plans()[slug], ""), *((it.plan, it.edition.name) for it in the_demo.made(slug))]


def begun(plan: Plan, edition: str) -> str:
    us = speaks_us(plan.recipe)
    batch = Begun(
        brewed=DAY,
        brewhouse=plan.brewhouse.name,
        edition=edition,
        yeast=hungriest(plan.recipe.yeasts).name,
        recipe=plan.recipe,
        plan=frozen_plan(plan),
        us=us,
    )
    return batch.file(blanks(plan, us=us), afterwards(plan, us=us))


def read_again(text: str, slug: str, desk: Desk) -> Batch:
    batch = read_batch(text, f"{slug}/{DAY}.md", the_demo.DEMO, the_demo.book().brewhouses, desk)
    assert [str(problem) for problem in desk.problems] == [], text
    assert batch is not None
    return batch


@pytest.mark.parametrize("slug", the_demo.SLUGS)
def test_a_batch_that_is_only_begun_reads_without_a_problem(slug: str, pantry: Any) -> None:
    for plan, edition in brews_of(slug):
        batch = read_again(begun(plan, edition), slug, Desk(pantry, Problems()))
        assert (batch.brewed, batch.brewhouse, bool(batch.edition)) == (DAY, plan.brewhouse.name, bool(edition))
        assert batch.yeast == hungriest(plan.recipe.yeasts).name
        assert batch.frozen.title == plan.recipe.title
        assert batch.frozen.sections == sections_of(plan.recipe, us=speaks_us(plan.recipe))
        measured = batch.measured
        assert (measured.moments, measured.log, measured.packaged, measured.before_the_boil) == ((), None, None, None)
        assert measured.calibration.number == pytest.approx(20)


@pytest.mark.parametrize("slug", the_demo.SLUGS)
def test_the_plan_is_kept_to_six_figures_with_its_range_and_unit(slug: str, pantry: Any) -> None:
    for plan, edition in brews_of(slug):
        kept = read_again(begun(plan, edition), slug, Desk(pantry, Problems())).frozen.plan
        planned = frozen_plan(plan)
        assert list(kept) == list(planned)
        for name, value in planned.items():
            assert kept[name].unit == value.unit
            assert kept[name].number == pytest.approx(value.number, rel=5.1e-6, abs=1e-9), (edition, name)
            near = 0.01 * (value.high - value.low) + 5.1e-6 * abs(value.number)
            assert kept[name].ends == pytest.approx(value.ends, abs=near), (edition, name)


def test_brew_writes_a_batch_beside_the_recipe_and_says_what_to_write_down(book: Path, run: Callable[..., Any]) -> None:
    ran = run("brew", "book/bitter.md", "--on", DAY)
    assert (ran.status, ran.err) == (cli.FINE, "")
    path, _, words = ran.out.partition("\n\n")
    assert path == f"book/bitter/{DAY}.md"
    text = Path(path).read_text("utf-8")
    assert text.startswith(f"---\nbrewed: {DAY}\nbrewhouse: hall\n")
    assert words.startswith("Reed Bank Bitter, 20 L in the hall brewhouse.")
    asked = re.findall(r"^  ([a-z ]+?)  ", words, re.MULTILINE)
    for field in asked:
        assert re.search(rf"^ *{field}:", text, re.MULTILINE), field
    assert re.search(
        r"^  before the boil: +# planned 2\d\.\d L cool, 2\d\.\d L hot, at 1\.0\d\d; cool the sample",
        text,
        re.MULTILINE,
    )
    assert run("check", "book").status == cli.FINE


def test_the_schema_of_a_batch_knows_everything_that_brew_writes(book: Path, run: Callable[..., Any]) -> None:
    path = run("brew", "book/bitter.md", "--on", DAY).out.split("\n")[0]
    front = yaml.load(Path(path).read_text("utf-8").split("---")[1], Loader=yaml.BaseLoader)
    schema = Draft7Validator(json.loads(run("schema", "batch").out))
    assert list(schema.iter_errors(front)) == []
    assert not schema.is_valid(front | {"tastd": "dry"})


def test_only_what_the_recipe_has_is_asked_for(book: Path, run: Callable[..., Any]) -> None:
    (book / "tin.md").write_text(
        "---\ntitle: A tin\nbrewhouse: hob\nbatch: 10 L\nboil: 15 min\nextracts: 1.5 kg light dried malt extract\n"
        "hops: 20 g Fuggle, 4.5 % alpha, 15 min\nyeast: 7 g english ale yeast, attenuative, dried\n"
        "ferment: 19 °C, 10 days\ncarbonation: 2 volumes, keg\n---\n",
        "utf-8",
    )
    ran = run("brew", "book/tin.md", "--on", DAY)
    text = (book / "tin" / f"{DAY}.md").read_text("utf-8")
    for absent in ("mash temperature", "first runnings", "dry hopped", "sugar,"):
        assert absent not in ran.out
        assert f"{absent}:" not in text
    assert "keg" in ran.out
    assert "original gravity" in ran.out


def test_a_second_brew_of_the_day_gets_a_number_and_the_first_stays(book: Path, run: Callable[..., Any]) -> None:
    (book / "bitter").mkdir()
    (book / "bitter" / f"{DAY}.md").write_text("a page that somebody wrote\n", "utf-8")
    first, second = (run("brew", "book/bitter.md", "--on", DAY).out.split("\n")[0] for _ in range(2))
    assert (first, second) == (f"book/bitter/{DAY}-2.md", f"book/bitter/{DAY}-3.md")
    assert (book / "bitter" / f"{DAY}.md").read_text("utf-8") == "a page that somebody wrote\n"


@pytest.mark.parametrize(("batch", "unit", "other"), [("20 L", "°C", "°F"), ("5 gal", "°F", "°C")])
def test_what_guides_the_hand_is_in_the_units_of_the_recipe(
    book: Path, run: Callable[..., Any], batch: str, unit: str, other: str
) -> None:
    recipe = book / "bitter.md"
    recipe.write_text(recipe.read_text("utf-8").replace("batch: 20 L", f"batch: {batch}"), "utf-8")
    ran = run("brew", "book/bitter.md", "--on", "2026-03-14")
    assert unit in ran.out
    assert other not in ran.out


def test_an_edition_is_brewed_as_it_is_sized(book: Path, run: Callable[..., Any]) -> None:
    assert run("brew", "book/bitter.md", "--edition", "5 gal", "--on", DAY).status == cli.FINE
    text = (book / "bitter" / f"{DAY}.md").read_text("utf-8")
    assert "\nedition: 5 gal\n" in text
    assert "\n  batch: 5 gal\n" in text
    assert re.search(r"\n    - 7 lb \d+ oz Pale ale malt, 3 °L\n", text)
    assert "hydrometer: 68 °F" in text
    problems = Problems()
    read = read_book(book, problems)
    assert read is not None
    assert [batch.edition for batch in read.batches] == ["5-gal"]


def test_a_batch_of_a_small_mash_beside_extract_is_begun_and_reads_back(
    book: Path, run: Callable[..., Any], pantry: Any
) -> None:
    """In a pot that mashes nothing else: its grain, its own water and its heat are in the file, which `check` reads."""
    (book / "oats.md").write_text(
        "---\ntitle: Oats\nbrewhouse: hall\nbatch: 20 L\nboil: 60 min\nmalts: [4 kg pale ale malt, 500 g flaked oats]\n"
        "hops: 30 g Fuggle, 4.5 % alpha, 60 min\nyeast: 11 g irish ale yeast, dried\nmash: 67 °C, 60 min\n"
        "ferment: 19 °C, 10 days\ncarbonation: 2 volumes, keg\n---\n",
        "utf-8",
    )
    ran = run("brew", "book/oats.md", "--edition", "extract 10 L in hob", "--on", DAY)
    assert ran.status == cli.FINE, ran.err
    text = (book / "oats" / f"{DAY}.md").read_text("utf-8")
    for line in ("    - 250 g Flaked oats", "Pale ale malt", "Dried malt extract", "    - 67 °C, 45 min, 2."):
        assert line in text, text
    assert run("check", "book").status == cli.FINE
    batch = read_batch(text, f"oats/{DAY}.md", book, read_book(book, Problems()).brewhouses, Desk(pantry, Problems()))
    assert batch is not None
    oats, pale = (float(grams) for grams in re.findall(r"- (\d+) g (?:Flaked oats|Pale ale malt)", text))
    assert pale >= oats
    assert batch.frozen.plan["mash-water"].number == pytest.approx(3 * (oats + pale) / 1000, abs=0.02)
    assert batch.frozen.plan["grain-mashed"].number == pytest.approx((oats + pale) / 1000)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--edition", "12 L in hal"], 'unknown brewhouse "hal" in "12 L in hal"'),
        (["--edition", "no 5 gal"], '"no 5 gal" asks for nothing'),
        (["--edition", "twelve litres"], '"twelve litres" is not an edition'),
        (["--edition", "grain"], "it is whole grain as it is"),
    ],
)
def test_an_edition_that_cannot_be_is_a_problem_and_no_file(
    book: Path, run: Callable[..., Any], words: list[str], said: str
) -> None:
    ran = run("brew", "book/bitter.md", *words, "--on", DAY)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert said in ran.err
    assert not (book / "bitter").exists()


@pytest.mark.parametrize("day", ["2026-3-14", "14/03/2026", "20260314", "tomorrow", "2026-02-30", ""])
def test_a_day_that_is_none_is_a_wrong_call(book: Path, run: Callable[..., Any], day: str) -> None:
    ran = run("brew", "book/bitter.md", "--on", day)
    assert (ran.status, ran.out) == (cli.USAGE, "")
    assert not (book / "bitter").exists()


def test_a_recipe_with_an_error_is_not_begun(book: Path, run: Callable[..., Any]) -> None:
    text = (book / "bitter.md").read_text("utf-8").replace("3.6 kg pale", "3.6 kgg pale")
    (book / "bitter.md").write_text(text, "utf-8")
    ran = run("brew", "book/bitter.md", "--on", DAY)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert 'unknown unit "kgg"' in ran.err
    assert not (book / "bitter").exists()


def test_an_error_in_another_batch_or_its_log_does_not_hold_a_brew_up(book: Path, run: Callable[..., Any]) -> None:
    run("brew", "book/mild.md", "--on", "2026-02-01")
    path = book / "mild" / "2026-02-01.md"
    path.write_text(path.read_text("utf-8").replace("  boiled:", "  log: a.csv\n  boiled: for ever"), "utf-8")
    (book / "mild" / "a.csv").write_text("nothing\n", "utf-8")
    assert run("check", "book").status == cli.PROBLEMS
    assert run("brew", "book/bitter.md", "--on", DAY).status == cli.FINE
    assert run("figures", "book/bitter.md").status == cli.FINE


def test_a_recipe_whose_folder_is_another_s_is_not_brewed_into_it(book: Path, run: Callable[..., Any]) -> None:
    (book / "pages.md").write_text((book / "bitter.md").read_text("utf-8"), "utf-8")
    ran = run("brew", "book/pages.md", "--on", DAY)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.startswith('book/pages.md:1:1: error: no page can be called "pages"')
    assert not (book / "pages").exists()


def test_without_a_day_it_is_today(book: Path, run: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    class Calendar(datetime.date):
        @classmethod
        def today(cls) -> datetime.date:
            return datetime.date(2027, 5, 3)

    monkeypatch.setattr("gristbook.cli.brew.date", Calendar)
    assert run("brew", "book/bitter.md").out.startswith("book/bitter/2027-05-03.md\n")


def test_the_calendar_is_asked_nowhere_else() -> None:
    """The same book gives the same bytes, whatever the day."""
    asked = re.compile(r"\b(?:today|now|utcnow|localtime|gmtime|time\.time)\(")
    house = Path(cli.__file__).parents[1]
    found = {
        path.relative_to(house).as_posix() for path in house.rglob("*.py") if asked.search(path.read_text("utf-8"))
    }
    assert found == {"cli/brew.py"}


def test_a_batch_that_is_only_begun_teaches_nothing(book: Path, run: Callable[..., Any]) -> None:
    run("brew", "book/bitter.md", "--on", DAY)
    problems = Problems()
    read = read_book(book, problems)
    assert read is not None
    worked = brewed(read, problems)
    assert not problems.errors()
    assert worked.book.brewhouses == read.brewhouses
