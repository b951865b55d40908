"""What a preview shows while its book is saved, half-written, renamed, taken away: never nothing, and what is wrong."""

from __future__ import annotations

import gc
import os
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from gristbook.preview.shown import Preview
from gristbook.site.render import Renderer

from .conftest import MILD

PAGE = "mild.html"


def save(preview: Preview, path: Path, text: str) -> None:
    path.write_text(text, "utf-8")
    preview.look()


def told(preview: Preview, page: str = PAGE, seen: int = -1) -> dict[str, object]:
    found = preview.news(page, seen, 0)
    assert found is not None
    return found[1]


def wheres(preview: Preview, page: str = PAGE) -> list[tuple[str, str, bool]]:
    rows = told(preview, page)["problems"]
    assert isinstance(rows, list)
    return [(it["where"], it["severity"], it["own"]) for it in rows]


def test_a_page_follows_a_save(book: Path, preview: Preview) -> None:
    before, mark = preview.file(PAGE), preview.mark(PAGE)
    save(preview, book / "mild.md", MILD.replace("afternoon", "evening"))
    now = preview.file(PAGE)
    assert before is not None
    assert now is not None
    assert (b"evening" in before, b"evening" in now) == (False, True)
    assert told(preview)["mark"] not in (mark, "")


def test_a_broken_recipe_stays_as_it_was_and_is_told_with_its_line_and_the_nearest_right_thing(
    book: Path, preview: Preview
) -> None:
    before = {page: preview.file(page) for page in (PAGE, "mild/day.html", "index.html")}
    save(preview, book / "mild.md", MILD.replace("2.4 kg", "2.4 kgg").replace("afternoon", "evening"))
    assert {page: preview.file(page) for page in before} == before
    news = told(preview)
    assert news["stale"]
    assert news["problems"] == [
        {
            "where": "mild.md:5",
            "severity": "error",
            "words": 'unknown unit "kgg" in "2.4 kgg pale ale malt"; did you mean "kg"?',
            "own": True,
            "page": "/mild.html",
        }
    ]
    assert ("mild.md:5", "error", False) in wheres(preview, "index.html")
    save(preview, book / "mild.md", MILD.replace("afternoon", "evening"))
    assert (wheres(preview), told(preview)["stale"]) == ([], False)
    assert b"evening" in (preview.file(PAGE) or b"")


def test_of_a_broken_recipe_nothing_is_told_that_its_last_text_has_not(book: Path, preview: Preview) -> None:
    save(preview, book / "mild.md", MILD.replace("afternoon", "[afternoon](nowhere.md)"))
    assert [severity for _, severity, _ in wheres(preview)] == ["warning"]
    save(preview, book / "mild.md", MILD.replace("2.4 kg", "2.4 kgg"))
    assert wheres(preview) == [("mild.md:5", "error", True)]


def test_a_broken_recipe_goes_by_the_book_of_today(book: Path, preview: Preview) -> None:
    save(preview, book / "mild.md", MILD.replace("2.4 kg", "2.4 kgg"))
    settings = (book / "book.yaml").read_text("utf-8")
    before = preview.file(PAGE)
    save(preview, book / "book.yaml", settings.replace("boil-off: 3 L/h", "boil-off: 4 L/h"))
    assert preview.file(PAGE) not in (None, before)
    assert wheres(preview) == [("mild.md:5", "error", True)]


def test_no_page_is_loaded_anew_that_looks_as_before(book: Path, preview: Preview) -> None:
    pages = (PAGE, "index.html", "quay-bitter.html", "sources.html")
    marks = {page: preview.mark(page) for page in pages}
    save(preview, book / "mild.md", MILD.replace("afternoon", "evening"))
    assert [page for page in pages if preview.mark(page) != marks[page]] == [PAGE]
    (book / "theme").mkdir()
    save(preview, book / "theme" / "style.css", '{% include "!style.css" %}\np { margin: 0 }\n')
    assert [page for page in pages if preview.mark(page) == marks[page]] == []


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("book.yaml", "titel: [\n"),
        ("book.yaml", ""),
        ("pantry/hops.yaml", "- name: [\n"),
        ("theme/recipe.html", "{% if %}"),
    ],
)
def test_an_error_of_the_whole_book_leaves_every_page_as_it_was(
    book: Path, preview: Preview, path: str, text: str
) -> None:
    before = preview.file(PAGE)
    (book / path).parent.mkdir(exist_ok=True)
    was = (book / path).read_text("utf-8") if (book / path).exists() else ""
    save(preview, book / path, text)
    assert preview.file(PAGE) == before
    assert told(preview)["stale"]
    assert {where.partition(":")[0] for where, severity, _ in wheres(preview) if severity == "error"} == {path}
    save(preview, book / path, was) if was else (book / path).unlink()
    preview.look()
    assert (wheres(preview), told(preview)["stale"]) == ([], False)


def test_a_template_that_fails_leaves_its_pages_as_they_were(book: Path, preview: Preview) -> None:
    before = preview.file(PAGE)
    (book / "theme").mkdir()
    save(
        preview, book / "theme" / "recipe.html", '{% extends "!recipe.html" %}{% block main %}{{ 1 / 0 }}{% endblock %}'
    )
    assert preview.file(PAGE) == before
    assert ("theme/recipe.html:1", "error", False) in wheres(preview)


def test_another_name_a_folder_that_goes_and_a_file_that_nobody_can_read(book: Path, preview: Preview) -> None:
    before = preview.file(PAGE)
    (book / "mild.md").rename(book / "dark-mild.md")
    preview.look()
    assert b"Reed Bank Mild" in (preview.file("dark-mild.html") or b"")
    assert (preview.file(PAGE), told(preview)["stale"]) == (before, True)
    (book / "dark-mild.md").unlink()
    (book / "dark-mild.md").mkdir()
    preview.look()
    assert ("dark-mild.md:1", "error", True) in wheres(preview, "dark-mild.html")
    assert b"Reed Bank Mild" in (preview.file("dark-mild.html") or b"")
    book.rename(book.with_name("away"))
    preview.look()
    assert [where for where, _, _ in wheres(preview)] == ["book.yaml:1"]
    assert preview.file("quay-bitter.html")
    book.with_name("away").rename(book)
    preview.look()
    assert ("book.yaml:1", "error", False) not in wheres(preview)


def test_the_file_that_is_saved_leads_to_its_page_unless_that_is_looked_at(book: Path, preview: Preview) -> None:
    save(preview, book / "mild.md", MILD.replace("afternoon", "evening"))
    leads = {page: told(preview, page, 0)["lead"] for page in ("index.html", "quay-bitter.html", PAGE, "mild/day.html")}
    assert leads == {"index.html": "/mild.html", "quay-bitter.html": "/mild.html", PAGE: "", "mild/day.html": ""}
    assert told(preview, "index.html")["lead"] == "", "a page that was opened since is where one wants to be"
    save(preview, book / "book.yaml", (book / "book.yaml").read_text("utf-8") + "\n# of nobody's\n")
    assert told(preview, "index.html", 1)["lead"] == ""


def test_an_editors_own_files_are_no_news(book: Path, preview: Preview) -> None:
    save(preview, book / ".mild.md.swp", "half a thought")
    assert preview.news(PAGE, 0, 0) is None


def test_a_fault_of_ours_is_told_and_the_page_is_as_it_was(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    faults: list[Exception] = []
    preview = Preview(book, faults.append)
    before = preview.file(PAGE)

    def fails(*_: object) -> bytes:
        raise KeyError("ours")

    with monkeypatch.context() as patch:
        patch.setattr(Renderer, "page", fails)
        save(preview, book / "mild.md", MILD.replace("afternoon", "evening"))
        assert preview.file(PAGE) == before
        assert "a fault of Gristbook's own" in str(told(preview)["problems"])
    assert [type(it) for it in faults][:1] == [KeyError]


def test_many_saves_half_written_ones_among_them_leave_a_page_every_time_and_nothing_behind(
    book: Path, preview: Preview, built: Callable[[], object]
) -> None:
    drawn, held = random.Random(11), []
    texts = {path: path.read_text("utf-8") for path in (book / "mild.md", book / "quay-bitter.md", book / "book.yaml")}
    for number in range(int(os.environ.get("GRISTBOOK_SAVES", "30"))):
        path = drawn.choice([*texts])
        text = texts[path] + (f"\n# {number}\n" if path.suffix == ".yaml" else f"\nSaved for the {number}th time.\n")
        save(preview, path, text[: drawn.randrange(len(text))] if drawn.random() < 0.4 else text)
        for page in ("index.html", PAGE, "quay-bitter.html", "mild/working.html"):
            data = preview.file(page)
            assert data is not None
            assert data.endswith(b"</html>\n"), (number, page)
        if number % 10 == 9:
            for sound, words in texts.items():
                save(preview, sound, words)
            assert wheres(preview) == []
            gc.collect()
            held.append(len(gc.get_objects()))
    assert held[-1] < 1.02 * held[1], held
    wanted = built()
    assert [page for page in (PAGE, "index.html") if preview.file(page) != wanted.files[page]] == []
