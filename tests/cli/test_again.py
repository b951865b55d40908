"""`gristbook build` a second time: nothing is made anew where nothing changed, and all that changed is."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import gristbook.hands
from gristbook import building, cli, read

Run = Callable[..., Any]
HEAVY = ("jinja2", "matplotlib", "numpy", "pint", "yaml", "markdown_it", "gristbook.text", "gristbook.targets")


def on_disk(out: Path) -> dict[str, bytes]:
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}


def stamps(out: Path) -> dict[Path, int]:
    return {path: path.stat().st_mtime_ns for path in out.rglob("*")}


def test_what_did_not_change_is_neither_read_nor_written(book: Path, run: Run) -> None:
    first = run("build", "book", "--out", "site")
    assert first.status == cli.FINE
    before = stamps(Path("site"))
    code = (
        "import sys; from gristbook.cli import main; done = main(['build', 'book', '--out', 'site'])\n"
        f"print(done, [name for name in {HEAVY} if name in sys.modules])"
    )
    again = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    files = first.out.split(": ")[1].split()[0]
    assert again.stdout.splitlines()[-1] == "0 []"
    assert f"0 files new, 0 changed, {files} as they were" in again.stdout
    assert stamps(Path("site")) == before


def test_its_problems_are_told_again(book: Path, run: Run) -> None:
    text = (book / "bitter.md").read_text("utf-8")
    (book / "bitter.md").write_text(text.replace("batch:", "batsh:", 1), "utf-8")
    first, again = (run("build", "book", "--out", "site") for _ in range(2))
    assert "batsh" in first.err
    assert (again.status, again.err) == (first.status, first.err) == (cli.PROBLEMS, first.err)


def _a_word(book: Path) -> None:
    (book / "mild.md").write_text((book / "mild.md").read_text("utf-8") + "\nOne word more.\n", "utf-8")


def _a_theme(book: Path) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "style.css").write_text('{% include "!style.css" %}\nbody { color: red; }\n', "utf-8")


def _a_style_sheet(book: Path) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "extra.css").write_text("body { color: red; }\n", "utf-8")


def _a_recipe_less(book: Path) -> None:
    (book / "mild.md").unlink()


def _a_page_spoiled(book: Path) -> None:
    (book.parent / "site" / "bitter.html").unlink()


@pytest.mark.parametrize("change", [_a_word, _a_theme, _a_style_sheet, _a_recipe_less, _a_page_spoiled])
def test_after_any_change_the_site_is_that_of_a_clean_build(
    change: Callable[[Path], None], book: Path, run: Run
) -> None:
    run("build", "book", "--out", "site")
    change(book)
    again = run("build", "book", "--out", "site")
    clean = run("build", "book", "--out", "clean")
    assert on_disk(Path("site")) == on_disk(Path("clean"))
    assert (again.status, again.err) == (clean.status, clean.err)


def test_a_strict_build_is_not_answered_by_one_that_was_not(book: Path, run: Run) -> None:
    (book / "odd.markdown").write_text("nobody reads this", "utf-8")
    easy, strict = run("build", "book", "--out", "site"), run("build", "book", "--out", "site", "--strict")
    assert "warning" in easy.err
    assert (easy.status, strict.status) == (cli.FINE, cli.PROBLEMS)


def test_other_processes_make_the_same_site(
    book: Path, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    alone = read(book).build(tmp_path / "alone")
    monkeypatch.setattr(gristbook.hands, "WORTH_A_HAND", 1)
    monkeypatch.setattr(gristbook.hands, "_processors", lambda: 2)
    helped = []
    calls = gristbook.hands.Hand.__call__

    def kept(self: gristbook.hands.Hand) -> Any:
        helped.append(calls(self))
        return helped[-1]

    monkeypatch.setattr(gristbook.hands.Hand, "__call__", kept)
    together = read(book).build(tmp_path / "together")
    assert together == alone
    assert [made is not None and sum(len(files) for _, files, _ in made.values()) > 1 for made in helped] == [True]
    assert on_disk(tmp_path / "alone") == on_disk(tmp_path / "together")


def test_a_process_that_read_another_book_makes_nothing_of_it(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    alone = read(book).build(tmp_path / "alone")
    monkeypatch.setattr(gristbook.hands, "WORTH_A_HAND", 1)
    monkeypatch.setattr(gristbook.hands, "_processors", lambda: 2)
    monkeypatch.setattr(building, "digest_in", lambda _: "of another book")
    assert read(book).build(tmp_path / "together") == alone
    assert building.share(book, ["bitter"], "of a third") is None
    assert on_disk(tmp_path / "alone") == on_disk(tmp_path / "together")


def test_a_fresh_build_takes_nothing_from_an_earlier_one_and_makes_the_same(
    book: Path, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GRISTBOOK_CACHE", str(tmp_path / "kept"))
    run("build", "book", "--out", "site")
    before, kept = stamps(Path("site")), os.environ["GRISTBOOK_CACHE"]
    memories = on_disk(Path(kept) / "builds")
    again = run("build", "book", "--out", "site", "--fresh")
    assert "0 files new, 0 changed" in again.out
    assert stamps(Path("site")) == before, "what is the same is not written, fresh or not"
    run("build", "book", "--out", "other", "--fresh")
    assert on_disk(Path("other")) == on_disk(Path("site"))
    assert (os.environ["GRISTBOOK_CACHE"], on_disk(Path(kept) / "builds")) == (kept, memories)
