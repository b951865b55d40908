"""`gristbook shop`: one list for several brews, summed by ingredient, in packs where things are sold in packs."""

from __future__ import annotations

from math import ceil
from pathlib import Path

import pytest

from gristbook import cli


def bought(out: str) -> dict[str, str]:
    """The list by what is bought: how much of it."""
    rows = [line[2:] for line in out.splitlines() if line.startswith("  ")]
    return {row[26:].strip(): row[:26].strip() for row in rows}


def shelves(out: str) -> list[str]:
    return [block.splitlines()[0] for block in out.split("\n\n")[1:]]


def test_the_brews_of_a_list_are_added_up_by_ingredient(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("shop", "book/bitter.md", "book/mild.md")
    assert (ran.status, ran.err) == (cli.FINE, "")
    rows = bought(ran.out)
    assert rows["Pale ale malt"].startswith("6.00 kg ")  # 3.6 and 2.4
    assert rows["Caramel malt 60 L"].startswith("520 g ")  # 220 and 300
    assert rows["Fuggle, pellets"].startswith("70 g ")  # 40 and 30
    assert rows["East Kent Golding, pellets"].startswith("25 g ")
    assert shelves(ran.out) == ["Malt", "Sugar", "Hops", "Yeast", "Finings and spices"]


def test_the_list_begins_with_what_it_is_for(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("shop", "book/bitter.md", "book/mild.md", "--times", "3")
    assert ran.out.splitlines()[:2] == [
        "Reed Bank Bitter, 20 L in the hall brewhouse, 3 times",
        "Reed Bank Mild, 20 L in the hall brewhouse, 3 times",
    ]


def test_times_over_is_as_often_as_much_and_packs_are_whole_for_each_brew(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    once, often = (
        run("shop", "book/bitter.md", "book/mild.md"),
        run("shop", "book/bitter.md", "book/mild.md", "--times", "8"),
    )
    assert bought(often.out)["Pale ale malt"].startswith("48.00 kg ")
    assert bought(often.out)["Fuggle, pellets"].startswith("560 g ")
    packs = ceil(11 / 11) + ceil(7 / 11)  # packets of 11 g, opened for each brew
    (yeast,) = (name for name in bought(once.out) if "English ale" in name)
    assert yeast.endswith(f"dried, {packs} packs")
    assert bought(once.out)[yeast].startswith("18 g ")
    (yeast,) = (name for name in bought(often.out) if "English ale" in name)
    assert yeast.endswith(f"dried, {8 * packs} packs")


def test_a_recipe_named_twice_is_bought_for_twice(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    assert bought(run("shop", "book/mild.md", "book/mild.md").out) == bought(
        run("shop", "book/mild.md", "--times", "2").out
    )


def test_a_list_is_for_the_size_that_is_asked_for(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("shop", "book/bitter.md", "book/mild.md", "--batch", "10 L", "--from", "extract", "--brewhouse", "hob")
    assert ran.status == cli.FINE
    assert "Reed Bank Mild, 10 L in the hob brewhouse, from malt extract" in ran.out
    rows = bought(ran.out)
    assert "Pale ale malt" not in rows
    assert any(name.startswith("Dried malt extract") for name in rows)
    assert rows["Caramel malt 60 L"].startswith("260 g ")  # half of 220 and 300


def test_what_is_counted_or_not_said_is_on_the_list_too(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    rows = bought(run("shop", "book/bitter.md", "--times", "3").out)
    assert next(much for name, much in rows.items() if name.startswith("Cinnamon")) == "6 pieces"
    assert next(much for name, much in rows.items() if name.startswith("Lemon peel")) == "to taste"


def test_gallons_are_bought_for_in_pounds_first(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    rows = bought(run("shop", "book/bitter.md", "--batch", "5 gal").out)
    assert rows["Pale ale malt"].partition(" ")[2].startswith("lb ")


def test_a_list_is_priced_where_the_pantry_has_prices_and_packets_are_paid_for_whole(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    (book / "book.yaml").write_text("currency: shells\n" + (book / "book.yaml").read_text("utf-8"), encoding="utf-8")
    (book / "pantry").mkdir()
    prices = "pale ale malt: 2.00 / kg\ncaramel malt 60: 3.00 / kg\nFuggle: 4.00 / 100 g\n"
    prices += "english ale yeast, attenuative: 5.50 / 11 g\n"
    (book / "pantry" / "prices.yaml").write_text(prices, encoding="utf-8")
    ran = run("shop", "book/mild.md", "--times", "2")
    paid = {line[29:79].strip(): line[79:].strip() for line in ran.out.splitlines() if line.startswith("  ")}
    assert paid["Pale ale malt"] == "9.60"  # 2 × 2.4 kg
    assert paid["Caramel malt 60 L"] == "1.80"  # 2 × 0.3 kg
    assert paid["Fuggle, pellets"] == "2.40"  # 2 × 30 g
    assert paid["English ale, attenuative, dried, 2 packs"] == "11.00"  # 2 × 7 g, in packets of 11 g
    assert paid["Sucrose (table sugar), for priming"] == ""
    last = ran.out.splitlines()[-1]
    assert last.startswith(
        "In all 24.80 shells, without Sucrose (table sugar), for priming, for which there is no price"
    )


@pytest.mark.parametrize("times", ["0", "-3", "1.5", "often", "", "1000000000", "٣"])
def test_times_that_is_no_number_of_brews_is_a_wrong_call(times: str, book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("shop", "book/mild.md", f"--times={times}")
    assert (ran.status, ran.out) == (cli.USAGE, "")
    assert "is not a number of brews" in ran.err


def test_one_recipe_with_an_error_stops_the_list_and_every_error_is_told(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    (book / "mild.md").write_text("---\nmalts: 3 kgg pale ale malt\n---\n", encoding="utf-8")
    ran = run("shop", "book/mild.md", "book/bitter.md", "book/none.md")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert 'book/mild.md:2:10: error: unknown unit "kgg"' in ran.err
    assert "book/none.md:1:1: error: there is no such file" in ran.err


def test_a_size_that_one_of_them_cannot_have_is_a_problem(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("shop", "book/bitter.md", "book/mild.md", "--brewhouse", "hob")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.count("the command line: error: ") == 2
