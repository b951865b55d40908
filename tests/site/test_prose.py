"""An author's Markdown: nothing in it becomes markup of its own, and every link leads somewhere or is told of."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from gristbook.site.addresses import Anchors, slug, way
from gristbook.site.prose import line, plain, prose


def made(text: str, under: int = 1, taken: tuple[str, ...] = ()) -> tuple[BeautifulSoup, list[str]]:
    lost: list[str] = []
    known = {"stout.md": "stout.html", "https://example.org/": "https://example.org/"}
    html = prose(text, under=under, anchors=Anchors(*taken), mend=known.get, lost=lost.append)
    return BeautifulSoup(html, "html.parser"), lost


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "a <b onclick='x'>b</b>", "<style>p{}</style>"])
def test_raw_html_is_shown_as_text(text: str) -> None:
    page, _ = made(text)
    assert page.find(["script", "b", "style"]) is None
    assert "<" in page.get_text()


def test_a_link_with_a_script_in_it_is_no_link() -> None:
    page, _ = made("[press](javascript:alert(1))")
    assert page.a is None


def test_headings_stand_under_the_pages_own_without_a_gap() -> None:
    page, _ = made("# A\n\n#### B\n\n## C\n\n### D\n", under=1)
    assert [h.name for h in page.find_all(["h1", "h2", "h3", "h4"])] == ["h2", "h3", "h3", "h4"]


def test_two_headings_alike_get_two_anchors_and_none_that_the_page_has() -> None:
    page, _ = made("## Method\n\n## Method\n", taken=("method",))
    assert [h["id"] for h in page.find_all("h2")] == ["method-2", "method-3"]


def test_a_link_to_a_file_of_the_book_leads_to_its_page() -> None:
    page, lost = made("See [the stout](stout.md) and [the world](https://example.org/).")
    assert [a["href"] for a in page.find_all("a")] == ["stout.html", "https://example.org/"]
    assert not lost


def test_a_link_that_leads_nowhere_keeps_its_words_and_is_told_of() -> None:
    page, lost = made("See [the *lost* one](lost.md) and ![a glass](glass.jpg).")
    assert page.get_text().strip() == "See the lost one and a glass."
    assert page.a is None
    assert page.img is None
    assert lost == ["lost.md"]


def test_quotes_are_curly_in_prose_lines_and_titles() -> None:
    assert str(line("The class's *house* bitter & <b>")) == "The class’s <em>house</em> bitter &amp; &lt;b&gt;"
    assert plain('Maud\'s "best" *ale*') == "Maud’s “best” ale"
    assert "doesn’t" in made("It doesn't.")[0].get_text()


def test_a_wide_table_in_prose_scrolls_on_its_own_and_can_be_reached_by_keys() -> None:
    page, _ = made("| a | b |\n|---|---|\n| 1 | <i>2</i> |\n")
    assert page.table is not None
    around = page.table.parent
    assert around is not None
    assert (around["class"], around["tabindex"], around["role"]) == (["scroll"], "0", "region")
    assert [th["scope"] for th in page.find_all("th")] == ["col", "col"]
    assert page.find("i") is None


def test_tables_are_called_by_their_heading_and_their_number() -> None:
    table = "| a |\n|---|\n| 1 |\n\n"
    page, _ = made(f"{table}## Malt & *more*\n\n{table}text\n\n{table}## Hops\n\n{table}")
    names = [region["aria-label"] for region in page.select(".scroll")]
    assert names == ["Table", "Table: Malt & more", "Table 2: Malt & more", "Table: Hops"]


def test_ways_are_relative_and_quoted() -> None:
    assert way("best/card.html", "index.html") == "../index.html"
    assert way("best.html", "best.html#hops") == "#hops"
    assert way("a/b.html", "sources.html#x") == "../sources.html#x"
    assert way("index.html", "süß.html") == "s%C3%BC%C3%9F.html"


def test_a_name_of_nothing_but_signs_still_is_a_name() -> None:
    assert slug("!!!") == "part"
    anchors = Anchors()
    assert [anchors.take("!!"), anchors.take("??")] == ["part", "part-2"]
