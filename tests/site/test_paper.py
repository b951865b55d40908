"""The whole book on paper, read back: what stands where the contents and the index say, and nothing but the book."""

from __future__ import annotations

import logging
import os
import re
import sys
from dataclasses import dataclass, field
from pathlib import Path

import pytest
import the_demo
from pypdf import PdfReader

from gristbook import cli
from gristbook.site.book.paper import NoPdf, printer

BOOK = """title: A small book
author: Nobody in Particular
brewhouses:
  hall:
    kettle: 40 L
    mash tun: 30 L
    efficiency: 72 %
chapters:
  - title: Pale ones
    about: What is poured first.
    recipes: [bitter, golden]
  - title: A dark one
    recipes: [mild]
"""
BEER = """---
title: {title}
summary: Poured before supper.
style: {style}
batch: 20 L
malts:
  - 3.5 kg pale ale malt
  - 200 g {malt}
hops:
  - 30 g {hop}, 5 % alpha, 60 min
yeast: 11 g english ale yeast, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
carbonation: 2.0 volumes, primed with table sugar
---
{title} has a story, and it leads to [another](bitter.md), to [water](learning/water.md) and [away](https://example.org/).

![A glass of it](pictures/glass.png)
"""
BEERS = {
    "bitter": ("The Bitter One", "best bitter", "caramel malt 60", "Fuggle"),
    "golden": ("The Golden One", "best bitter", "wheat malt", "Cascade"),
    "mild": ("The Mild One", "dark mild", "chocolate malt", "Fuggle"),
}
TITLES = tuple(title for title, *_ in BEERS.values())


@dataclass(slots=True)
class Paper:
    """The PDF, page by page as text, and what the library complained of."""

    pages: list[str]
    reader: PdfReader
    complaints: list[str] = field(default_factory=list)
    out: Path = Path()

    def page_of(self, words: str, *, after: int = 0) -> int:
        """The printed number of the first page that has a text, contents left out."""
        return next(number for number, text in enumerate(self.pages, 1) if number > after and words in text)


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text.replace("\xa0", " ").replace("\xad", ""))


def build(folder: Path, out: Path, *options: str) -> int:
    return cli.main(["build", str(folder), "--out", str(out), *options])


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("paper") / "book"
    (folder / "pictures").mkdir(parents=True)
    (folder / "book.yaml").write_text(BOOK, "utf-8")
    picture = next(the_demo.DEMO.rglob("*.png"))
    (folder / "pictures" / "glass.png").write_bytes(picture.read_bytes())
    for name, (title, style, malt, hop) in BEERS.items():
        (folder / f"{name}.md").write_text(BEER.format(title=title, style=style, malt=malt, hop=hop), "utf-8")
    return folder


class _Complaints(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


@pytest.fixture(scope="module")
def paper(book: Path, tmp_path_factory: pytest.TempPathFactory) -> Paper:
    try:
        printer()
    except NoPdf as why:
        if os.environ.get("GRISTBOOK_PDF") == "required":
            raise
        pytest.skip(str(why))
    out, heard = tmp_path_factory.mktemp("site"), _Complaints()
    logging.getLogger("weasyprint").addHandler(heard)
    assert build(book, out, "--pdf") == cli.FINE
    logging.getLogger("weasyprint").removeHandler(heard)
    reader = PdfReader(out / "book.pdf")
    return Paper([plain(page.extract_text()) for page in reader.pages], reader, heard.said, out)


def contents(paper: Paper) -> dict[str, int]:
    """What the contents say: the page of every title."""
    first = paper.page_of("Contents")
    last = next(n for n in range(first, len(paper.pages)) if "Index" in paper.pages[n - 1])
    told = " ".join(re.sub(r" \d+$", "", text) for text in paper.pages[first - 1 : last])
    rows = re.findall(r"([^.…\d][^….]*?)\s*(?:\. ?){3,}\s*(\d+)", told)
    return {re.sub(r"^\s*(?:Contents )*", "", title).strip(): int(number) for title, number in rows}


def test_the_library_complains_of_nothing(paper: Paper) -> None:
    """No link within the document leads nowhere, no picture is missing, no line of its dress is passed over."""
    assert paper.complaints == []


def test_the_first_page_has_the_title_and_the_author(paper: Paper) -> None:
    assert "A small book" in paper.pages[0]
    assert "nobody in particular" in paper.pages[0].lower()
    assert paper.reader.metadata is not None
    assert paper.reader.metadata.title == "A small book"


def test_every_page_behind_the_cover_bears_its_number(paper: Paper) -> None:
    for number, page in enumerate(paper.pages[1:], 2):
        assert re.search(rf"(?<!\d){number}$", page) or page.strip() in ("", str(number)), (number, page[-40:])


def test_the_contents_say_on_which_page_each_title_stands(paper: Paper) -> None:
    told = contents(paper)
    for title in ("Pale ones", "A dark one", *TITLES, "Take care", "Glossary", "Sources", "Index"):
        assert title in paper.pages[told[title] - 1], title
    for title in TITLES:
        assert "What goes in" not in paper.pages[told[title] - 2] or title not in paper.pages[told[title] - 2]
    lessons = [title for title in told if paper.pages[told[title] - 1].count(title)]
    assert len(lessons) == len(told) > 20


def test_a_recipe_tells_its_story_what_goes_in_the_method_and_the_outcome(paper: Paper) -> None:
    told = contents(paper)
    first, then = told["The Bitter One"], told["The Golden One"]
    said = " ".join(paper.pages[first - 1 : then - 1])
    assert then - first <= 3  # with a picture as high as half of one
    for words in (
        "has a story",
        "3.50 kg",
        "Pale ale malt",
        "30 g",
        "Fuggle",
        "Original gravity",
        "rest 60 min at 67 °C",
    ):
        assert words in said, words
    assert "lb" not in said
    assert len({image.data for n in range(first - 1, then - 1) for image in paper.reader.pages[n].images}) == 1


def test_the_index_leads_to_where_a_thing_goes_in_and_a_style_is_compared_with(paper: Paper) -> None:
    index = paper.pages[contents(paper)["Index"] - 1]
    uses = {"Fuggle": ("bitter", "mild"), "Cascade": ("golden",), "Chocolate malt": ("mild",)}
    uses |= {"Best Bitter": ("bitter", "golden"), "Pale ale malt": ("bitter", "golden", "mild")}
    told = contents(paper)
    ends = [*(told[title] for title in TITLES), told["Take care"]]
    for words, beers in uses.items():
        (found,) = re.findall(rf"{words}((?:, \d+)+)", index)
        pages = [int(number) for number in re.findall(r"\d+", found)]
        assert len(pages) == len(beers), words
        for page, beer in zip(pages, beers, strict=True):
            assert words in paper.pages[page - 1]
            title = BEERS[beer][0]
            assert told[title] <= page < min(end for end in ends if end > told[title])


def test_links_lead_within_the_book_and_away_but_not_into_the_site(paper: Paper) -> None:
    away = {
        str(note.get_object()["/A"]["/URI"])
        for page in paper.reader.pages
        for note in page.get("/Annots", ())
        if "/URI" in note.get_object().get("/A", {})
    }
    assert away == {"https://example.org/"} | {address for address in away if address.startswith("https://")}
    assert not [address for address in away if "html" in address and "example" in address]


def test_a_build_without_it_is_as_it_ever_was_and_takes_the_pdf_away(book: Path, paper: Paper, tmp_path: Path) -> None:
    assert build(book, tmp_path) == cli.FINE
    there = {path.relative_to(tmp_path): path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    assert not any(path.suffix == ".pdf" for path in there)
    assert b"book.pdf" not in there[Path("index.html")]
    assert b"book.pdf" in (paper.out / "index.html").read_bytes()
    assert build(book, paper.out) == cli.FINE
    assert not (paper.out / "book.pdf").exists()


def test_where_the_library_is_not_one_line_says_what_to_install_and_nothing_is_written(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    assert build(book, tmp_path / "out", "--pdf") == cli.PROBLEMS
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "gristbook[pdf]" in told
    assert "libpango" in told
    assert not (tmp_path / "out").exists()
