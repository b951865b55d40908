"""`gristbook build`: a slip takes nothing away that was made well, and a danger does; a site stays where it belongs."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from gristbook import cli
from gristbook.model.paths import TAKEN
from gristbook.site.disk.held import MARK
from gristbook.site.disk.owned import DRAFTS, LIST

Run = Callable[..., Any]
ADDRESS = "address: https://quillmere.example/\nauthor: Maud Tarrow\n"


@pytest.fixture
def small(book: Path) -> Path:
    """The book without its learning pages, so that it is built in a moment, and with something of everything else."""
    text = (book / "book.yaml").read_text("utf-8") + ADDRESS + "learning: no\neditions: extract 5 L in hob\n"
    (book / "book.yaml").write_text(text, "utf-8")
    for name, more in {"mild": "\n![A glass](pictures/glass.png)\n", "bitter": ""}.items():
        recipe = (book / f"{name}.md").read_text("utf-8").replace("batch:", "date: 2026-02-01\nbatch:", 1)
        (book / f"{name}.md").write_text(recipe + more, "utf-8")
    (book / "pages").mkdir()
    (book / "pages" / "about.md").write_text("---\ntitle: About\n---\nWords.\n", "utf-8")
    (book / "pictures").mkdir()
    Image.new("RGB", (4, 3)).save(book / "pictures" / "glass.png")
    return book


def on_disk(out: Path) -> dict[str, bytes]:
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def build(run: Run, out: str = "site") -> tuple[Any, dict[str, bytes]]:
    return run("build", "book", "--out", out), on_disk(Path(out))


def test_no_page_of_ours_is_called_what_a_recipe_may_be_called(small: Path, run: Run) -> None:
    ran, files = build(run)
    assert (ran.status, ran.err) == (cli.FINE, "")
    authors = {"bitter", "mild", "about", "pictures", LIST}
    assert {path.partition("/")[0].removesuffix(".html") for path in files} - authors <= TAKEN
    assert {"cautions", "chapters", "feed.xml", "sitemap.xml", "style.css", "ingredients"} <= TAKEN


def test_a_slip_in_a_recipe_leaves_its_pages_marked_and_out_of_the_lists(small: Path, run: Run) -> None:
    _, before = build(run)
    edit(small / "mild.md", "malts:", "maltz:")
    ran, after = build(run)
    assert ran.status == cli.PROBLEMS
    assert "stay from an earlier build, marked so, until this is mended:\n  mild.md\n" in ran.out
    assert "0 removed" in ran.out
    own = {path for path in before if path.startswith("mild")}
    assert {
        "mild.html",
        "mild/card.html",
        "mild/working.html",
        "mild/figures.json",
        "mild/extract-5-l-in-hob.html",
    } <= own
    assert own <= set(after)
    for path in own:
        assert after[path].replace(MARK, b"") == before[path]
        assert after[path].count(MARK) == path.endswith(".html")
    assert after["pictures/glass.png"] == before["pictures/glass.png"]
    assert all(b"mild.html" in before[path] for path in ("feed.xml", "sitemap.xml", "index.html"))
    for path in after.keys() - own - {LIST}:
        assert b"mild.html" not in after[path] or MARK in after[path], path
    again = build(run)[1]
    assert again == after  # and once marked is marked


def test_a_page_is_made_well_again_as_if_nothing_had_been(small: Path, run: Run) -> None:
    _, before = build(run)
    edit(small / "mild.md", "malts:", "maltz:")
    build(run)
    edit(small / "mild.md", "maltz:", "malts:")
    ran, after = build(run)
    assert (ran.status, after) == (cli.FINE, before)


def test_a_removed_recipe_leaves_no_page_also_while_another_waits_to_be_mended(small: Path, run: Run) -> None:
    build(run)
    (small / "bitter.md").unlink()
    edit(small / "mild.md", "malts:", "maltz:")
    _, after = build(run)
    assert not [path for path in after if path.startswith("bitter")]
    assert "mild.html" in after


@pytest.mark.parametrize("slip", ["", "brewhouse"])
def test_an_error_of_safety_takes_a_page_down(small: Path, run: Run, slip: str) -> None:
    _, before = build(run)
    edit(small / "mild.md", "1.8 volumes", "7 volumes")
    if slip:
        edit(small / "book.yaml", "batch: 10 L", "batch: 10 Lx")
    ran, after = build(run)
    assert ran.status == cli.PROBLEMS
    assert not [path for path in after if path.startswith("mild")]
    assert {path for path in before if path.startswith("bitter")} <= set(after)


def test_a_slip_in_one_brewhouse_removes_nothing_and_is_no_fault_of_the_others(small: Path, run: Run) -> None:
    edit(small / "book.yaml", "mash: none", "mash: bag")
    edit(small / "mild.md", "batch: 20 L", "brewhouse: hob\nbatch: 8 L")
    edit(small / "mild.md", "2.4 kg", "1 kg")
    edit(small / "mild.md", "300 g", "100 g")
    ran, before = build(run)
    assert "mild.html" in before, ran.err
    edit(small / "book.yaml", "boil-off: 2 L/h", "boil-off: 2 L/hh")
    edit(small / "bitter.md", "title: Reed Bank Bitter", "title: Reed Bank Best")
    ran, after = build(run)
    assert "  mild.md\n" in ran.out
    assert set(before) - {"feed.xml"} <= set(after)
    assert MARK in after["mild.html"]
    assert MARK in after["bitter/extract-5-l-in-hob.html"]
    assert MARK not in after["bitter.html"]
    assert b"Reed Bank Best" in after["bitter.html"]


def test_a_setting_that_one_recipe_cannot_be_brewed_with_stops_that_recipe_alone(small: Path, run: Run) -> None:
    edit(small / "mild.md", "batch: 20 L", "brewhouse: attic\nbatch: 20 L")
    edit(small / "book.yaml", "brewhouses:\n", "brewhouses:\n  attic: {batch: 20 L, efficiency: 72 %}\n")
    _, before = build(run)
    edit(small / "book.yaml", "efficiency: 72 %}", "efficiency: 9 %}")
    edit(small / "bitter.md", "title: Reed Bank Bitter", "title: Reed Bank Best")
    ran, after = build(run)
    assert ran.status == cli.PROBLEMS
    assert 'book/book.yaml:4:36: error: with 9 % as mash efficiency, "Reed' in ran.err
    assert after["mild.html"].replace(MARK, b"") == before["mild.html"]
    assert MARK in after["mild.html"]
    assert b"Reed Bank Best" in after["bitter.html"]


def test_a_slip_in_a_page_leaves_it_as_it_was(small: Path, run: Run) -> None:
    _, before = build(run)
    edit(small / "pages" / "about.md", "title:", "titel:")
    _, after = build(run)
    assert after["about.html"].replace(MARK, b"") == before["about.html"]


def test_a_slip_in_a_learning_page_does_not_put_ours_in_its_place(small: Path, run: Run) -> None:
    edit(small / "book.yaml", "learning: no\n", "")
    own = small / "theme" / "learning"
    own.mkdir(parents=True)
    (own / "water.md").write_text("---\ntitle: Water from the mere\nsummary: Ours.\n---\nIt is soft.\n", "utf-8")
    _, before = build(run)
    assert b"Water from the mere" in before["learning/water.html"]
    edit(own / "water.md", "summary:", "sumary:")
    _, after = build(run)
    assert after["learning/water.html"].replace(MARK, b"") == before["learning/water.html"]
    assert MARK in after["learning/water.html"]


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("theme/recipe.html", "{{ view.typo }}"),
        ("theme/style.css", "{{ site.typo }}"),
        ("theme/learning/contents.yaml", "- title: [\n"),
        ("pantry/malts.yaml", "- name: Cascade\n  colour: 3\n"),
        ("book.yaml", None),
        ("book.yaml", "chapters: [{title: T, recipes: [lost]}]\n"),
    ],
)
def test_a_fault_of_book_or_theme_writes_nothing_at_all(small: Path, run: Run, file: str, text: str | None) -> None:
    if "learning" in file:
        edit(small / "book.yaml", "learning: no\n", "")
    _, before = build(run)
    (small / file).parent.mkdir(parents=True, exist_ok=True)
    kept = (small / "book.yaml").read_text("utf-8") if file == "book.yaml" else ""
    (small / file).write_text(kept + text if text is not None else kept.replace("title:", "titel:", 1), "utf-8")
    edit(small / "mild.md", "title: Reed", "title: Read")
    ran, after = build(run)
    assert ran.status == cli.PROBLEMS
    assert ran.err.endswith("nothing was written\n")
    assert after == before


def test_a_file_that_somebody_changed_is_named_and_fails_the_build(small: Path, run: Run) -> None:
    build(run)
    Path("site/mild.html").write_text("corrected by hand", "utf-8")
    ran, after = build(run)
    assert (ran.status, after["mild.html"]) == (cli.PROBLEMS, b"corrected by hand")
    assert "site/mild.html does not hold what we wrote, so it stays as it is" in ran.err


@pytest.mark.parametrize(
    "out",
    [".", "book", *(f"book/{it}" for it in ("theme", "theme/site", "pages", "pages/x", "pantry", "mild", "mild/x"))],
)
def test_a_site_is_not_written_into_what_the_book_is_read_from(small: Path, run: Run, out: str) -> None:
    before = on_disk(small)
    ran = run("build", "book", "--out", out)
    assert ran.status == cli.PROBLEMS
    assert "choose a folder that holds nothing else" in ran.err
    assert on_disk(small) == before


def test_a_site_beside_the_texts_of_its_book_is_as_good_as_any(small: Path, run: Run) -> None:
    assert run("build", "book", "--out", "book/site").status == cli.FINE
    (small / "site" / "README.md").write_text("What this folder is.", "utf-8")
    assert run("build", "book", "--out", "book/site").status == cli.FINE
    _, elsewhere = build(run)
    (small / "site" / "README.md").unlink()
    assert on_disk(Path("book/site")) == elsewhere
    assert run("build", "book", "--out", "book/site").out.count(" 0 files new, 0 changed") == 1


def test_a_link_of_the_books_does_not_lead_the_site_elsewhere(small: Path, run: Run) -> None:
    Path("others").mkdir()
    (small / "site").symlink_to(Path("others").absolute(), target_is_directory=True)
    ran = run("build", "book", "--out", "book/site")
    assert (ran.status, list(Path("others").iterdir())) == (cli.PROBLEMS, [])
    assert "leads out of the book by a link" in ran.err


SECRET = "somebody's own words"


@pytest.mark.parametrize(
    "link", ["theme", "theme/host.css", "theme/fonts/own.woff2", "theme/page.html", "pantry", "pantry/prices.yaml",
             "spy.md", "pages/spy.md", "pages", "mild", "theme/learning", "theme/learning/spy.md", "mild/glass.png"]
)  # fmt: skip
def test_nothing_outside_of_a_book_is_published(small: Path, run: Run, link: str) -> None:
    outside = Path("outside").absolute()
    for name in ("", "learning", "fonts"):
        (outside / name).mkdir(exist_ok=True)
    names = "host.css own.woff2 page.html spy.md about.md 2026-01-01.md learning/spy.md prices.yaml"
    for name in names.split():
        (outside / name).write_text(f"---\ntitle: {SECRET}\nsummary: {SECRET}\n---\n{SECRET}\n", "utf-8")
    Image.new("RGB", (4, 3), "red").save(outside / "glass.png")
    if "learning" in link:
        edit(small / "book.yaml", "learning: no\n", "")
    if link == "mild/glass.png":
        edit(small / "mild.md", "pictures/glass.png", "glass.png")
    shutil.rmtree(small / link, ignore_errors=True)
    (small / link).parent.mkdir(parents=True, exist_ok=True)
    there = outside if "." not in link else outside / Path(link).name
    (small / link).symlink_to(there, target_is_directory=there.is_dir())
    ran, files = build(run)
    assert ran.status == cli.PROBLEMS
    assert "error: " in ran.err
    for path, data in files.items():
        assert SECRET.encode() not in data, path
        assert data != (outside / "glass.png").read_bytes()


@pytest.mark.parametrize("address", ["%2Fetc%2Fglass.png", "..%2Fglass.png", "%2e%2e/glass.png", "/glass.png"])
def test_a_picture_outside_of_a_book_is_not_there(small: Path, run: Run, address: str) -> None:
    Image.new("RGB", (4, 3), "red").save("glass.png")
    edit(small / "mild.md", "pictures/glass.png", address.replace("%2Fetc", str(Path.cwd()).replace("/", "%2F")))
    ran, files = build(run)
    assert ran.status == cli.PROBLEMS
    assert not [path for path in files if path.endswith("glass.png")]


def test_a_batch_is_not_begun_outside_of_its_book(small: Path, run: Run) -> None:
    Path("others").mkdir()
    (small / "mild").symlink_to(Path("others").absolute(), target_is_directory=True)
    assert run("brew", "book/mild.md", "--on", "2026-03-14").status == cli.PROBLEMS
    assert not list(Path("others").iterdir())


def test_a_book_brings_no_charts_of_its_own_and_gets_none(
    small: Path, run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The same bytes with charts that were kept, with none, and with what lies in the book under a chart's own name."""
    monkeypatch.setenv("GRISTBOOK_CACHE", str(tmp_path / "kept"))
    before = on_disk(small)
    drawn = build(run)[1]
    assert on_disk(small) == before
    charts = sorted((tmp_path / "kept" / "charts").iterdir())
    assert charts
    forged = small / ".gristbook" / "charts"
    forged.mkdir(parents=True)
    for chart in charts:
        (forged / chart.name).write_text(chart.read_text("utf-8").replace("IBU", "99 IBU"), "utf-8")
    assert build(run, "kept-ones")[1] == drawn
    monkeypatch.setenv("GRISTBOOK_CACHE", str(tmp_path / "none"))
    assert build(run, "fresh")[1] == drawn
    assert not (Path("fresh") / DRAFTS).exists()


def test_a_recipe_named_with_a_line_break_removes_nobodys_file(small: Path, run: Run) -> None:
    build(run)
    Path("site/notes.txt").write_text("years of work", "utf-8")
    (small / f"x\n{'0' * 64}  notes.txt\n.md").write_text((small / "mild.md").read_text("utf-8"), "utf-8")
    ran, _ = build(run)
    assert "it holds a character that cannot be seen" in ran.err
    build(run)
    assert Path("site/notes.txt").read_text("utf-8") == "years of work"


def test_a_recipe_cannot_take_the_place_of_the_cautions(small: Path, run: Run) -> None:
    _, before = build(run)
    shutil.copy(small / "mild.md", small / "cautions.md")
    ran, after = build(run)
    assert 'book/cautions.md:1:1: error: no page can be called "cautions"' in ran.err
    assert after["cautions.html"] == before["cautions.html"]
