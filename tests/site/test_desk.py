"""A text that was written out before is taken over as long as whatever it asked for has the same answer."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from gristbook.problems import Place, Problems
from gristbook.site.addresses import Anchors
from gristbook.site.desk import Desk
from gristbook.site.learn.terms import Glossary

TEXT = "See [the mill](mill.md) and [nobody](gone.md).\n\n![A jug](jug.png)\n"


def desk(there: dict[str, str], pictures: dict[str, Any], kept: dict[str, Any], asked: list[str]) -> Desk:
    def show(address: str, words: str) -> Any:
        asked.append(address)
        return pictures.get(address)

    links: Any = SimpleNamespace(for_page=lambda path, source: there.get)
    album: Any = SimpleNamespace(of_page=lambda *_: show)
    return Desk(links, album, Glossary(), None, Problems(), kept)


def written(it: Desk, text: str = TEXT) -> str:
    return str(it.prose(text, "beer.html", Place("beer.md", 1), Anchors()))


def test_what_a_link_or_a_picture_becomes_is_asked_again_and_what_is_lost_is_told_again() -> None:
    kept: dict[str, Any] = {}
    asked: list[str] = []
    there, pictures = {"mill.md": "mill.html"}, {"jug.png": {"src": "jug.png", "width": 3, "height": 2}}
    first = desk(there, pictures, kept, asked)
    page = written(first)
    assert 'href="mill.html"' in page
    second = desk(there, pictures, kept, asked)
    before = kept["beer.html"]
    assert written(second) == page
    assert kept["beer.html"] is before
    assert asked == ["jug.png"] * 2  # so that it is laid among the files of the new site, too
    assert [str(it) for it in second.problems] == [str(it) for it in first.problems]
    assert len(list(second.problems)) == 1

    moved = written(desk({"mill.md": "pages/mill.html"}, pictures, kept, asked))
    assert 'href="pages/mill.html"' in moved
    assert 'width="9"' in written(desk(there, {"jug.png": {"src": "jug.png", "width": 9, "height": 2}}, kept, asked))
    assert "<a" not in written(desk({}, pictures, kept, asked))
    assert "Other" in written(desk(there, pictures, kept, asked), "Other words.")
