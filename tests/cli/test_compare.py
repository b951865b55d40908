"""`gristbook compare`: which figures moved between two texts, and which changed lines did it, each by itself."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from gristbook import cli
from gristbook.cli.comparing.lines import merged, recipe_text
from gristbook.interface import Book
from gristbook.problems import Problems
from gristbook.reading.page import read_page

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="older texts are asked of git")
ROOT = Path(__file__).parents[2]
README, RECIPES = (ROOT / "README.md").read_text("utf-8"), ROOT / "recipes"

WHEAT = """\
---
title: Wheat
batch: 18 L
malts: [2 kg pale wheat malt, 2 kg pilsner malt]
yeast: 22 g wheat beer yeast, dried
mash: 66 °C, 45 min
ferment: 19 °C, 10 days
carbonation: 2.8 volumes, keg
---
Pale.
"""

EXTRACT = """\
---
title: Plain Ale
batch: 20 L
extracts:
  - 3 kg light dried malt extract
hops:
  - 30 g Fuggle, 4.5 % alpha, 60 min
  - 20 g East Kent Golding, 5.2 % alpha, 10 min
yeast: 11 g english ale yeast, attenuative, dried
ferment: 19 °C, 10 days
carbonation: 2.0 volumes, primed with table sugar
---
As plain as it gets.
"""


def git(folder: Path, *words: str) -> str:
    """What git says, as nobody in particular, whatever settings this computer has."""
    who = {f"GIT_{role}_{what}": "a@example.org" for role in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    known = {**os.environ, **who, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
    return subprocess.run(
        ["git", "-C", str(folder), *words], env=known, capture_output=True, text=True, check=True
    ).stdout


def kept(folder: Path) -> None:
    """Keep everything in a folder as it stands, in a new revision."""
    if not (folder / ".git").exists():
        git(folder, "init", "--quiet")
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "--allow-empty", "--message", "as it stands")


def edit(path: Path, *changes: tuple[str, str]) -> None:
    text = path.read_text("utf-8")
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    path.write_text(text, "utf-8")


@pytest.fixture
def plain(book: Path) -> Path:
    """A recipe from extract in the small book, which git keeps."""
    (book / "plain.md").write_text(EXTRACT, "utf-8")
    kept(book)
    return book / "plain.md"


@pytest.fixture
def since(run: Callable[..., Any]) -> Callable[..., Any]:
    """`since("book/plain.md")`: what a recipe's comparison with the last revision tells a program."""

    def call(*words: str) -> Any:
        ran = run("compare", "--since", "HEAD", *words, "--json")
        assert (ran.status, ran.err) == (cli.FINE, "")
        return json.loads(ran.out)

    return call


def moved(data: Any, figure: str, change: int | None = None) -> float:
    """By how much a figure of the first recipe moved, in all or by one change alone."""
    (recipe,) = data["recipes"]
    found = recipe["figures"][figure]["by"] if change is None else recipe["changes"][change]["moves"][figure]
    assert isinstance(found, float)
    return found


def test_a_tenth_more_extract_is_a_tenth_more_points(plain: Path, since) -> None:  # type: ignore[no-untyped-def]
    """Points are by the weight of what dissolves; a tenth of them is 4 to 5 of a beer of 1.045, the curve aside."""
    edit(plain, ("3 kg light", "3.3 kg light"))
    gravity = since("book/plain.md")["recipes"][0]["figures"]["original-gravity"]
    assert gravity["now"] - 1 == pytest.approx(1.1 * (gravity["then"] - 1), rel=0.005)
    assert gravity["by"] == pytest.approx(gravity["now"] - gravity["then"], abs=1e-8)
    assert gravity["low"] < gravity["then"] < gravity["high"]
    assert gravity["beyond"] is (not gravity["low"] <= gravity["now"] <= gravity["high"])
    assert (gravity["words"], gravity["unit"]) == ("original gravity", "SG")


def test_twice_the_alpha_acids_are_twice_the_bitterness_of_that_hop(plain: Path, since) -> None:  # type: ignore[no-untyped-def]
    bitterness = Book(plain.parent).plan("plain")["hop.fuggle/bitterness"].number
    edit(plain, ("4.5 % alpha", "9 % alpha"))
    assert moved(since("book/plain.md"), "bitterness") == pytest.approx(bitterness, rel=1e-6)


def test_each_changed_line_is_worked_out_by_itself(plain: Path, since) -> None:  # type: ignore[no-untyped-def]
    """Twice the weight of a hop is what it gave once more; gas moves no bitterness, and hops no gas."""
    plan = Book(plain.parent).plan("plain")
    fuggle, golding = (plan[f"hop.{it}/bitterness"].number for it in ("fuggle", "east-kent-golding"))
    edit(plain, ("- 30 g", "- 60 g"), ("- 20 g", "- 40 g"), ("2.0 volumes", "2.5 volumes"))
    data = since("book/plain.md")
    changes = data["recipes"][0]["changes"]
    assert [it["lines"][0]["where"] for it in changes] == [["hops"], ["hops"], ["carbonation"]]
    assert moved(data, "bitterness", 0) == pytest.approx(fuggle, rel=1e-6)
    assert moved(data, "bitterness", 1) == pytest.approx(golding, rel=1e-6)
    assert moved(data, "bitterness") == pytest.approx(fuggle + golding, rel=1e-6)
    assert "bitterness" not in changes[2]["moves"]
    assert moved(data, "carbonation", 2) == pytest.approx(0.5)
    assert "carbonation" not in {**changes[0]["moves"], **changes[1]["moves"]}
    assert data["recipes"][0]["together"] == []


def test_lines_that_act_on_each_other_are_named_with_what_is_left(plain: Path, since, run) -> None:  # type: ignore[no-untyped-def]
    """Sugar goes by beer times gas: of two changes, the product of their shares comes on top of their sum."""
    edit(plain, ("batch: 20 L", "batch: 10 L"), ("2.0 volumes", "3.0 volumes"))
    data = since("book/plain.md")
    (pair,) = [it for it in data["recipes"][0]["together"] if "priming-sugar" in it["figures"]]
    by_size, by_gas = (moved(data, "priming-sugar", at) for at in (0, 1))
    then = data["recipes"][0]["figures"]["priming-sugar"]["then"]
    assert by_size < 0 < by_gas
    assert pair["changes"] == [0, 1]
    assert pair["figures"]["priming-sugar"] == pytest.approx(by_size * by_gas / then, rel=1e-4)
    assert moved(data, "priming-sugar") == pytest.approx(by_size + by_gas + by_size * by_gas / then, rel=1e-4)
    assert (
        "1 and 2 act on each other: beside the sum of each alone,"
        in run("compare", "book/plain.md", "--since", "HEAD").out
    )


def test_two_lines_swapped_move_nothing_and_are_said_to(plain: Path, since, run) -> None:  # type: ignore[no-untyped-def]
    fuggle, golding = (line for line in EXTRACT.splitlines() if " g " in line and "alpha" in line)
    edit(plain, (f"{fuggle}\n{golding}", f"{golding}\n{fuggle}"))
    (recipe,) = since("book/plain.md")["recipes"]
    assert recipe["figures"] == {}
    assert [it["moves"] for it in recipe["changes"]] == [{}]
    out = run("compare", "book/plain.md", "--since", "HEAD").out
    assert ": no figure moved\n" in out
    assert "alpha, 10 min, in another place\n     moves nothing\n" in out


def test_lines_that_cannot_be_brewed_alone_are_joined(book: Path, since, run) -> None:  # type: ignore[no-untyped-def]
    """Shares of a grist are a hundred; one of them alone that is another is no recipe. The hop is none of theirs."""
    edit(
        book / "bitter.md",
        (
            "malts:\n  - 3.6 kg pale ale malt\n  - 220 g caramel",
            "OG: 1.040\nmalts:\n  - 90 % pale ale malt\n  - 10 % caramel",
        ),
    )
    kept(book)
    edit(book / "bitter.md", ("40 g Fuggle", "50 g Fuggle"), ("90 %", "85 %"), ("10 %", "15 %"))
    changes = since("book/bitter.md")["recipes"][0]["changes"]
    assert [(it["joined"], len(it["lines"])) for it in changes] == [(True, 2), (False, 1)]
    assert changes[0]["moves"]["base-malt"] == pytest.approx(-0.05)
    assert "base-malt" not in changes[1]["moves"]
    assert "together, for one alone cannot be brewed: " in run("compare", "book/bitter.md", "--since", "HEAD").out


def test_what_is_expected_stops_no_comparison(plain: Path, since, run) -> None:  # type: ignore[no-untyped-def]
    edit(plain, ("carbonation:", "expect: {bitterness: 10 ± 30}\ncarbonation:"))
    kept(plain.parent)
    edit(plain, ("10 ± 30", "10 ± 0.1"), ("3 kg light", "4 kg light"))
    assert run("check", "book").status == cli.PROBLEMS
    changes = since("book/plain.md")["recipes"][0]["changes"]
    assert [(it["joined"], bool(it["moves"])) for it in changes] == [(False, True), (False, False)]


def test_only_words_changed_is_said_in_a_line_or_two(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    same = run("compare", "book/plain.md", "--since", "HEAD")
    assert same.status == cli.FINE
    assert len(same.out.splitlines()) == 1
    assert same.out.endswith(": no figure moved\n")
    edit(plain, ("As plain", "Plainer than"))
    out = run("compare", "book/plain.md", "--since", "HEAD").out
    assert out.endswith(": no figure moved\n  only the prose changed\n")


def test_two_recipes_are_compared_line_by_line(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("compare", "book/mild.md", "book/bitter.md", "--json")
    assert ran.status == cli.FINE
    data = json.loads(ran.out)
    assert (data["then"], data["now"]) == ("book/mild.md", "book/bitter.md")
    plans = [Book(book).plan(it)["bitterness"].number for it in ("mild", "bitter")]
    assert moved(data, "bitterness") == pytest.approx(plans[1] - plans[0], rel=1e-6)
    lines = [line for it in data["recipes"][0]["changes"] for line in it["lines"]]
    assert {"file": "mild.md", "where": ["mash"], "then": "68 °C, 60 min", "now": "67 °C, 60 min"} in lines
    assert "220 g caramel malt 60" in [line["now"] for line in lines]
    assert "30 g Fuggle, 4.5 % alpha, 60 min" in [line["then"] for line in lines]


def test_a_whole_book_names_what_is_new_gone_renamed_and_moved(book: Path, plain: Path, run, since) -> None:  # type: ignore[no-untyped-def]
    (book / "mild.md").rename(book / "dark.md")
    edit(book / "dark.md", ("30 g Fuggle", "60 g Fuggle"))
    plain.unlink()
    (book / "wheat.md").write_text(WHEAT, "utf-8")
    edit(
        book / "bitter.md",
        (
            "carbonation: 2.0 volumes, primed with table sugar\n---\n",
            "carbonation: 2 vol, primed with table sugar\n---\nWords.\n",
        ),
    )
    data = since("--book", "book")
    assert (data["new"], data["gone"], data["renamed"]) == (["wheat.md"], ["plain.md"], {"mild.md": "dark.md"})
    assert [it["recipe"] for it in data["recipes"]] == ["bitter.md", "dark.md"]
    ran = run("compare", "--since", "HEAD", "--book", "book")
    assert ran.status == cli.FINE
    for words in (
        "figures moved in 1 of 3 recipes\n  wheat.md: new\n  plain.md: gone\n  mild.md: now dark.md\n",
        "hops: 30 g Fuggle, 4.5 % alpha, 60 min, now 60 g Fuggle, 4.5 % alpha, 60 min\n     by itself: all of this\n",
        "Reed Bank Bitter, 20 L in the hall brewhouse: no figure moved\n",
        "primed with table sugar\n     moves nothing\n  the prose changed, too\n",
    ):
        assert words in ran.out


def test_settings_pantry_and_brews_are_causes_too(book: Path, since, run) -> None:  # type: ignore[no-untyped-def]
    """A litre more that boils away in the hour is a litre more to begin with; what moves nothing is told once."""
    edit(book / "book.yaml", ("efficiency: 72 % ± 4", "efficiency: from batches, 72 % ± 4"))
    kept(book)
    assert run("brew", "book/mild.md", "--on", "2026-03-14").status == cli.FINE
    edit(book / "mild" / "2026-03-14.md", ("\n  before the boil:  ", "\n  before the boil: 25 L at 1.028  "))
    edit(book / "book.yaml", ("boil-off: 3 L/h", "boil-off: 4 L/h"), ("A book of two beers", "Two beers"))
    (book / "pantry").mkdir()
    (book / "pantry" / "malts.yaml").write_text("- name: caramel malt 60\n  colour: 90 °L\n", "utf-8")
    data = since("--book", "book")
    causes = {it["lines"][0]["file"]: it for it in data["recipes"][0]["changes"] if it["moves"]}
    assert [*causes] == ["book.yaml", "mild/2026-03-14.md", "pantry/malts.yaml"]
    assert causes["book.yaml"]["moves"]["boil-volume"] == pytest.approx(1, abs=0.05)
    assert causes["pantry/malts.yaml"]["moves"]["colour"] > 0
    assert "colour" not in causes["book.yaml"]["moves"]
    assert causes["mild/2026-03-14.md"]["moves"]["mash-efficiency"] > 0  # 1.025 was planned
    out = run("compare", "--since", "HEAD", "--book", "book").out
    assert out.count("book.yaml, title: A book of two beers, now Two beers: moves nothing\n") == 1
    assert "book.yaml, brewhouses, hall, boil-off: 3 L/h, now 4 L/h\n" in out
    assert "pantry/malts.yaml, new\n" in out


def test_nothing_of_the_author_s_is_touched(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    edit(plain, ("3 kg light", "4 kg light"))
    before = state(plain.parent)
    for words in (("--book", "book"), ("book/plain.md",)):
        assert run("compare", "--since", "HEAD", *words).status == cli.FINE
    assert state(plain.parent) == before


def state(folder: Path) -> dict[str, tuple[str, int]]:
    """Every file in a folder, git's own among them: what it holds and when it was written."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path): (sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns) for path in files}


def test_a_side_that_cannot_be_read_is_named_with_its_line(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    edit(plain, ("3 kg light", "3 kgg light"))
    ran = run("compare", "book/plain.md", "--since", "HEAD")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert ran.err.startswith('book/plain.md:5:7: error: unknown unit "kgg"')
    kept(plain.parent)
    edit(plain, ("3 kgg light", "3 kg light"))
    edit(plain.parent / "mild.md", ("30 g Fuggle", "40 g Fuggle"))
    assert run("compare", "book/plain.md", "--since", "HEAD").err.startswith("HEAD:book/plain.md:5:7: error: ")
    ran = run("compare", "--since", "HEAD", "--book", "book")
    assert ran.status == cli.PROBLEMS
    assert ran.err.startswith("HEAD:book/plain.md:5:7: error: ")
    assert "  plain.md: cannot be compared\n" in ran.out
    assert "40 g Fuggle" in ran.out


def test_a_book_that_cannot_be_read_is_not_said_to_stand_still(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    kept(book)
    edit(book / "book.yaml", ("brewhouse: hall", "brewhouse: hal"))
    ran = run("compare", "--since", "HEAD", "--book", "book")
    assert ran.status == cli.PROBLEMS
    assert ran.err.startswith('book/book.yaml:2:12: error: unknown brewhouse "hal"')
    assert "nothing can be compared\n  bitter.md: cannot be compared\n" in ran.out
    assert "no figure moved" not in ran.out


def test_what_is_no_recipe_on_a_side_is_said_of_that_side(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    (plain.parent / "wheat.md").write_text(WHEAT, "utf-8")
    ran = run("compare", "book/wheat.md", "--since", "HEAD")
    assert ran.status == cli.PROBLEMS
    assert ran.err.startswith("HEAD:book/wheat.md:1:1: error: there is no such file\n")
    assert run("compare", "book/wheat.md", "book/nothing.md").err.startswith("book/nothing.md:1:1: error: ")
    assert run("compare", "book/wheat.md", "elsewhere.md").status == cli.PROBLEMS


@pytest.mark.parametrize(
    ("revision", "there", "words"),
    [
        ("nope", True, 'gristbook: git knows no revision "nope" here\n'),
        ("--all", True, 'gristbook: git knows no revision "--all" here\n'),
        ("HEAD", False, "gristbook: book lies in no git repository\n"),
        ("HEAD", None, "gristbook: older texts are asked of git, and git is not installed\n"),
    ],
)
def test_what_git_cannot_tell_is_one_line(
    revision: str, there: bool | None, words: str, book: Path, run, monkeypatch: pytest.MonkeyPatch
) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(book.parents[1]))
    if there:
        kept(book)
    if there is None:
        monkeypatch.setenv("PATH", str(book))
    for asked in (["--book", "book"], ["book/mild.md"]):
        ran = run("compare", f"--since={revision}", *asked)
        assert (ran.status, ran.out, ran.err) == (cli.PROBLEMS, "", words)


def test_a_book_that_was_not_there_is_one_line(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    settings = (book / "book.yaml").read_text("utf-8")
    (book / "book.yaml").unlink()
    kept(book)
    (book / "book.yaml").write_text(settings, "utf-8")
    ran = run("compare", "--since", "HEAD", "--book", "book")
    assert (ran.status, ran.err) == (cli.PROBLEMS, "gristbook: book held no book at HEAD\n")


@pytest.mark.parametrize(
    "words",
    [(), ("a.md",), ("a.md", "b.md", "c.md"), ("a.md", "b.md", "--since", "HEAD"), ("--book", "book"),
     ("a.md", "--since", "HEAD", "--book", "book"), ("--since", "HEAD", "--json", "--markdown")],
)  # fmt: skip
def test_a_wrong_call_is_told_how_to_call(words: tuple[str, ...], book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("compare", *words)
    assert (ran.status, ran.out) == (cli.USAGE, "")
    assert ran.err.startswith("usage: gristbook compare ")


def test_json_keeps_its_shape(plain: Path, since) -> None:  # type: ignore[no-untyped-def]
    edit(plain, ("batch: 20 L", "batch: 10 L"), ("2.0 volumes, primed with table sugar", "3.0 volumes, keg"))
    data = since("--book", "book")
    assert [*data] == ["then", "now", "new", "gone", "renamed", "failed", "recipes"]
    (recipe,) = data["recipes"]
    assert [*recipe] == ["recipe", "was", "title", "prose", "figures", "changes", "together"]
    for figure in recipe["figures"].values():
        assert [*figure] == ["words", "unit", "then", "now", "by", "low", "high", "beyond"]
    gone = recipe["figures"]["priming-sugar"]
    assert gone["then"] > 0
    assert (gone["now"], gone["by"], gone["beyond"]) == (None, None, None)
    for change in recipe["changes"]:
        assert [*change] == ["lines", "joined", "moves"]
        assert [*change["lines"][0]] == ["file", "where", "then", "now"]
    assert all([*it] == ["changes", "figures"] for it in recipe["together"])


def test_an_author_s_marks_are_none_in_markdown(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    edit(plain, ("title: Plain Ale", "title: Plain | <b>Ale"), ("30 g Fuggle", "60 g Fuggle"))
    ran = run("compare", "--since", "HEAD", "--book", "book", "--markdown")
    assert ran.status == cli.FINE
    lines = ran.out.splitlines()
    assert "### Plain \\| \\<b\\>Ale, 20 L in the hall brewhouse" in lines
    head = lines.index("|  | then | now | moved | nine brews in ten then |")
    assert lines[head + 1] == "|---|---:|---:|---:|---|"
    assert any(line.startswith("| bitterness | ") and line.count("|") == 6 for line in lines[head:])
    assert (
        "2. hops: 30 g Fuggle, 4.5 % alpha, 60 min, now 60 g Fuggle, 4.5 % alpha, 60 min; by itself: all of this"
        in lines
    )


def test_the_book_s_own_units_are_told(plain: Path, run) -> None:  # type: ignore[no-untyped-def]
    """20 L to 10 L: 5.28 gal to 2.64 gal, in steps of 0.05 gal."""
    (plain.parent / "book.yaml").write_text((plain.parent / "book.yaml").read_text("utf-8") + "units: US\n", "utf-8")
    kept(plain.parent)
    edit(plain, ("batch: 20 L", "batch: 10 L"))
    out = run("compare", "book/plain.md", "--since", "HEAD").out
    (into,) = [line for line in out.splitlines() if line.strip().startswith("into the fermenter")]
    assert into.split()[3:9] == ["5.3", "gal", "2.65", "gal", "−2.65", "gal"]
    assert " L " not in out.partition("\n")[2].partition("1. batch")[0]


def test_the_readme_s_comparison_is_what_its_edits_give(tmp_path: Path, run, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    (recipe,) = re.findall(r"^```yaml\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    (settings,) = re.findall(r"^```yaml book\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    ((command, output),) = re.findall(
        r"^```console\n\$ gristbook (compare .*?)\n(.*?)^```$", README, re.DOTALL | re.MULTILINE
    )
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_COMMITTER_DATE", "2026-03-14T12:00:00Z")
    (tmp_path / "book.yaml").write_text(settings, "utf-8")
    (tmp_path / "reed-bank-bitter.md").write_text(recipe, "utf-8")
    kept(tmp_path)
    for before, after in re.findall(r"\d\. \w+: (.*), now (.*)\n", output):
        edit(tmp_path / "reed-bank-bitter.md", (before, after))
    assert run(*command.split()).out == output


def test_every_recipe_of_the_demo_written_again_is_the_same_beer() -> None:
    book = Book(RECIPES)
    for slug in book.recipes:
        page = read_page((RECIPES / f"{slug}.md").read_text("utf-8"), f"{slug}.md", Problems())
        assert page is not None
        again = book.plan(slug, text=recipe_text(list(merged(slug, page.front, page.front)), ()))
        then = book.plan(slug)
        assert {it: figure.number for it, figure in again.items()} == {it: figure.number for it, figure in then.items()}
