"""`gristbook adjust`: what to do about wort that is not as planned, said so that a brewer can do it at once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gristbook import cli

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def adjusted(run, wort: str, *more: str):  # type: ignore[no-untyped-def]
    return run("adjust", "book/bitter.md", "--measured", wort, *more)


def test_thin_wort_is_boiled_on_or_strengthened(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = adjusted(run, "21 L at 1.036")
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert re.search(r"^Boil \d+ min longer$", ran.out, re.MULTILINE)
    assert re.search(r"^Stir in \d+ g \([\d.]+ oz\) of dried malt extract$", ran.out, re.MULTILINE)
    assert "Take the heat off while malt extract goes in" in ran.out
    assert "scalds" in ran.out


def test_strong_wort_is_thinned(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = adjusted(run, "20 L at 1.048")
    assert re.search(r"^Pour in [\d.]+ L \([\d.]+ (qt|gal)\) of water$", ran.out, re.MULTILINE)
    assert "boil it and cool it under a lid" in ran.out


def test_wort_as_planned_needs_nothing(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    figures = run("figures", "book/bitter.md", "--json").out
    gravity = re.search(r'"gravity after the boil".*?"value": ([\d.]+)', figures, re.DOTALL)
    assert gravity is not None
    ran = adjusted(run, f"21 L at {float(gravity[1]):.4f}")
    assert "nothing need be done" in ran.out
    assert "Left as it is" not in ran.out


@pytest.mark.parametrize(
    "same",
    [
        "24 L at 1.030, before the boil",
        "24 L, 1.030, before the boil",
        "before the boil, 24 L at 1.030",
        "24 L at 1.030 in the kettle before the boil",
    ],
)
def test_where_it_was_measured_may_stand_anywhere(book: Path, run, same: str) -> None:  # type: ignore[no-untyped-def]
    ran = adjusted(run, same)
    assert ran.out.splitlines()[1] == "Measured before the boil: 24 L (6.35 gal) at 1.030, cool"


def test_hot_wort_is_reckoned_cool(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    """26.04 L at the boiling point are 25 L at 20 °C, by the density of water (IAPWS-95)."""
    assert "25.0 L (6.6 gal) at 1.030" in adjusted(run, "26.04 L hot at 1.030").out


def test_an_edition_may_be_meant(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = adjusted(run, "11 L at 1.030", "--edition", "10 L")
    assert ran.status == cli.FINE
    assert "10 L" in ran.out.splitlines()[0]


@pytest.mark.parametrize(
    ("wort", "words"),
    [
        ("22 L", "a volume and a gravity are needed"),
        ("1.040", "a volume and a gravity are needed"),
        ("much", "says nothing here"),
        ("2 L at 1.040, before the boil", "the kettle boils dry"),
        ("22 L at 2.0", "too much"),
        ("-3 L at 1.040", ""),
    ],
)
def test_what_cannot_be_reckoned_with_is_refused_in_words(book: Path, run, wort: str, words: str) -> None:  # type: ignore[no-untyped-def]
    ran = run("adjust", "book/bitter.md", f"--measured={wort}")
    assert ran.status == cli.PROBLEMS
    assert ran.out == ""
    assert "the command line: error: " in ran.err
    assert words in ran.err


def test_without_a_measure_the_call_is_wrong(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    assert run("adjust", "book/bitter.md").status == cli.USAGE


def test_no_recipe_is_refused_as_by_other_commands(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("adjust", "book/none.md", "--measured", "22 L at 1.040")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "book/none.md:1:1: error: there is no such file" in ran.err


def test_nothing_is_proposed_that_does_not_fit_the_kettle(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    """A 40 L kettle boils 0.8 × 40/1.0434 = 30.7 L, and water for 1.060 would make 40 and more of 29 L."""
    ran = adjusted(run, "29 L at 1.060")
    assert not re.search(r"^Pour in", ran.out, re.MULTILINE)
    assert re.search(r"^Go on with [\d.]+ L .* of it and pour in [\d.]+ L .* of water$", ran.out, re.MULTILINE)


def test_ten_times_the_wort_is_not_as_good_as_planned(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = adjusted(run, "50 gal at 1.042")
    assert "nothing need be done" not in ran.out
    assert re.search(r"^Go on with ", ran.out, re.MULTILINE)
    assert "read the volume again" in ran.out


KIT = """---
title: A tin
brewhouse: hob
batch: 20 L
kettle: 7 L
boil: 15 min
extracts:
  - 1.7 kg light liquid malt extract, 0 min, 26 IBU in 20 L
  - 1 kg light dried malt extract, 15 min
yeast: 11 g english ale yeast, attenuative, dried
ferment: 19 °C, 12 days
---
"""


@pytest.mark.parametrize("where", ["", ", in the fermenter", " into the fermenter"])
def test_a_topped_up_kit_that_is_as_planned_needs_nothing(book: Path, run, where: str) -> None:  # type: ignore[no-untyped-def]
    (book / "tin.md").write_text(KIT, encoding="utf-8")
    figures = run("figures", "book/tin.md", "--json").out
    gravity = re.search(r'"original gravity".*?"value": ([\d.]+)', figures, re.DOTALL)
    assert gravity is not None
    ran = run("adjust", "book/tin.md", "--measured", f"20 L at {float(gravity[1]):.4f}{where}")
    assert ran.out.splitlines()[1].startswith("Measured in the fermenter: 20 L")
    assert "nothing need be done" in ran.out


def test_the_readme_s_example_is_what_it_prints(tmp_path: Path, run, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    (recipe,) = re.findall(r"^```yaml\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    (settings,) = re.findall(r"^```yaml book\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    ((command, output),) = re.findall(
        r"^```console\n\$ gristbook (adjust .*?)\n(.*?)^```$", README, re.DOTALL | re.MULTILINE
    )
    (tmp_path / "book.yaml").write_text(settings, encoding="utf-8")
    (tmp_path / "reed-bank-bitter.md").write_text(recipe, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    name, path, option, wort = re.fullmatch(r'(\S+) (\S+) (\S+) "(.+)"', command).groups()  # type: ignore[union-attr]
    assert run(name, path, option, wort).out == output
