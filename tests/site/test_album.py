"""Pictures in prose: found beside the text, shown in their size, copied once, and never silently wrong."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from made_site import make_site
from PIL import Image

from gristbook.charts.caches import FrameCache
from gristbook.problems import Place, Problems
from gristbook.site.album import HEAVIEST, Album

SOURCE = "quillmere-best.md"


def draw(path: Path, *, size: tuple[int, int] = (40, 30), **how: Any) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", size, "#b06010").save(path, **how)
    return path


def show(
    root: Path, address: str, words: str = "A glass", source: str = SOURCE
) -> tuple[Any, dict[str, bytes], list[str]]:
    """The attributes of a picture on a page, the files that came with it, and the problems."""
    files: dict[str, bytes] = {}
    problems = Problems()
    album = Album(lambda path, data, place: files.update({path: data}), problems)
    here = source.removeprefix("pages/").replace(".md", ".html")
    found = album.of_page(here, source, root, lambda _: Place(source))(address, words)
    return found, files, [str(problem) for problem in problems]


@pytest.mark.parametrize("name", ["glass.jpg", "glass.jpeg", "glass.png", "glass.webp", "Glass.JPG"])
def test_a_picture_in_the_recipe_s_own_folder_is_shown_in_its_size(tmp_path: Path, name: str) -> None:
    file = draw(tmp_path / "quillmere-best" / name)
    found, files, problems = show(tmp_path, name)
    assert found == {"src": f"quillmere-best/{name}", "width": 40, "height": 30}
    assert files == {f"quillmere-best/{name}": file.read_bytes()}
    assert problems == []


@pytest.mark.parametrize(
    ("where", "address", "source", "there"),
    [
        ("quillmere-best/my glass.png", "my%20glass.png", SOURCE, "quillmere-best/my glass.png"),
        ("quillmere-best/glass.png", "quillmere-best/glass.png", SOURCE, "quillmere-best/glass.png"),
        ("pages/about/mill.png", "mill.png", "pages/about.md", "about/mill.png"),
        ("pages/mill.png", "mill.png", "pages/about.md", "mill.png"),
        ("quillmere-best/glass.png", "../quillmere-best/glass.png", "pages/about.md", "quillmere-best/glass.png"),
    ],
)
def test_a_picture_is_found_beside_its_text_too(
    tmp_path: Path, where: str, address: str, source: str, there: str
) -> None:
    draw(tmp_path / where)
    _, files, problems = show(tmp_path, address, source=source)
    assert list(files) == [there]
    assert problems == []


def test_a_picture_taken_on_its_side_stands_upright(tmp_path: Path) -> None:
    """Exif 2.32, tag 274: from five on, what is stored as rows is seen as columns."""
    told = Image.Exif()
    told[274] = 6
    draw(tmp_path / "quillmere-best" / "glass.jpg", exif=told)
    found, _, _ = show(tmp_path, "glass.jpg")
    assert (found["width"], found["height"]) == (30, 40)


def test_a_picture_that_says_where_it_was_taken_is_warned_of(tmp_path: Path) -> None:
    told = Image.Exif()
    told.get_ifd(0x8825)[1] = "N"
    draw(tmp_path / "quillmere-best" / "glass.jpg", exif=told)
    assert show(tmp_path, "glass.jpg")[2] == [
        "quillmere-best/glass.jpg:1:1: warning: this picture says where it was taken, to everybody who downloads it; "
        "expected a copy without its position"
    ]


def test_a_heavy_picture_is_warned_of(tmp_path: Path) -> None:
    path = tmp_path / "quillmere-best" / "glass.png"
    path.parent.mkdir()
    Image.effect_noise((700, 700), 100).save(path)
    assert path.stat().st_size > HEAVIEST
    assert "warning: this picture is heavy for a phone" in show(tmp_path, "glass.png")[2][0]


@pytest.mark.parametrize(
    ("address", "problem"),
    [
        ("lost.jpg", "a picture that is not there in"),
        ("../../etc/passwd.png", "a picture that is not there in"),
        ("/etc/glass.png", "a picture from elsewhere"),
        ("https://example.org/glass.png", "a picture from elsewhere"),
        ("//example.org/glass.png", "a picture from elsewhere"),
        ("data:image/png;base64,AAAA", "a picture from elsewhere"),
        ("drawing.svg", "a picture of a kind that is not shown"),
        ("broken.png", "this picture cannot be read"),
        ("folder.png", "a picture that is not there"),
        ("", "a picture that is not there"),
        ("a\x00b.png", "a picture that is not there"),
    ],
)
def test_a_picture_that_cannot_be_shown_is_an_error_and_its_words_stay(
    tmp_path: Path, address: str, problem: str
) -> None:
    own = tmp_path / "book" / "quillmere-best"
    draw(tmp_path / "etc" / "passwd.png")
    draw(own / "other.jpg").rename(own / "broken.png")
    (own / "drawing.svg").write_text("<svg/>", "utf-8")
    (own / "folder.png").mkdir()
    found, files, problems = show(tmp_path / "book", address)
    assert found is None
    assert files == {}
    assert len(problems) == 1
    assert f"{SOURCE}:1:1: error: {problem}" in problems[0]


def test_a_picture_without_words_is_an_error(tmp_path: Path) -> None:
    draw(tmp_path / "quillmere-best" / "glass.jpg")
    _, _, (problem,) = show(tmp_path, "glass.jpg", " ")
    assert "error: a picture without words for those who cannot see it" in problem


def test_pictures_of_a_recipe_and_of_a_page_are_in_the_site(demo, tmp_path: Path, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    draw(tmp_path / "quillmere-best" / "glass.jpg")
    draw(tmp_path / "pages" / "about" / "mill.png")
    plan = demo.plan("quillmere-best")
    plan = replace(
        plan, recipe=replace(plan.recipe, prose="Once ![A *full* glass](glass.jpg), twice ![It](glass.jpg).")
    )
    (page,) = demo.book.pages
    book = replace(demo.book, editions=(), learning=None, pages=(replace(page, prose="![The mill](mill.png)"),))
    problems = Problems()
    files = make_site(book, (plan,), problems, cache, folder=tmp_path)
    assert [*problems] == []
    assert {"quillmere-best/glass.jpg", "about/mill.png"} <= set(files)
    first = BeautifulSoup(files["quillmere-best.html"], "html.parser").find("img")
    assert first is not None
    assert {name: first[name] for name in ("src", "alt", "width", "height", "loading")} == {
        "src": "quillmere-best/glass.jpg",
        "alt": "A full glass",
        "width": "40",
        "height": "30",
        "loading": "lazy",
    }
