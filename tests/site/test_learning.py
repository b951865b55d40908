"""Learning pages and the glossary as pages: their order, their links, and a term's first use on every page."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from posixpath import dirname, join, normpath

import pytest
from bs4 import BeautifulSoup
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.model.learning import Learning, Term
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.site.learn.terms import Glossary
from gristbook.text.learning import read_learning

from .conftest import trees_of


def uses(*terms: tuple[str, ...], page: str = "x.html") -> tuple[Glossary, str]:
    return Glossary([Term(forms[0], forms, "", "", None) for forms in terms]), page


@pytest.mark.parametrize(
    ("text", "linked"),
    [
        ("The wort is hot, and the wort is sweet.", ["wort"]),
        ("Wort at first, WORT then.", ["Wort"]),
        ("Worthy worts", ["worts"]),
        ("First wort hops go into first wort.", ["First wort hops"]),
        ("no-sparge and sparge", ["sparge"]),
        ("a brewer’s yeast, a brewer's yeast", ["brewer’s yeast"]),
        ("İwort wort", ["wort"]),
        ("", []),
    ],
)
def test_a_term_is_found_as_a_whole_word_once_and_in_its_longest_form(text: str, linked: list[str]) -> None:
    glossary, page = uses(("wort", "worts"), ("first wort hops", "first wort"), ("sparge",), ("brewer's yeast",))
    pieces = list(glossary.on(page).pieces(text))
    assert "".join(piece.words for piece in pieces) == text
    assert [piece.words for piece in pieces if piece.href] == linked


def test_what_one_paragraph_has_linked_the_next_does_not(demo) -> None:  # type: ignore[no-untyped-def]
    glossary, page = uses(("wort",))
    assert glossary.on("a/b.html").linked("<wort>") == '&lt;<a class="term" href="../glossary.html#wort">wort</a>&gt;'
    assert glossary.on("a/b.html").linked("wort") == "wort"
    assert "href" in glossary.on(page).linked("wort")


def learning_of(demo) -> Learning:  # type: ignore[no-untyped-def]
    learning = demo.book.learning
    assert isinstance(learning, Learning)
    return learning


def test_every_learning_page_is_there_with_the_next_and_the_one_before(demo) -> None:  # type: ignore[no-untyped-def]
    learning = learning_of(demo)
    order = [lesson.slug for lesson in learning.in_order()]
    assert len(order) >= 10
    for place, slug in enumerate(order):
        links = {a["rel"][0]: a["href"] for a in demo.pages[f"learning/{slug}.html"].select(".neighbours [rel]")}
        assert links.get("prev") == (f"{order[place - 1]}.html" if place else None)
        assert links.get("next") == (f"{order[place + 1]}.html" if place + 1 < len(order) else None)
    listed = [a["href"] for a in demo.pages["learning/index.html"].select(".lessons a")]
    assert listed == [f"{slug}.html" for slug in order]


def test_a_sheet_leads_to_its_answers_and_they_lead_back(demo) -> None:  # type: ignore[no-untyped-def]
    sheets = [(answers, sheet) for answers, sheet in learning_of(demo).apart()]
    assert sheets
    for answers, sheet in sheets:
        assert demo.pages[f"learning/{sheet.slug}.html"].find("a", href=f"{answers.slug}.html")
        assert demo.pages[f"learning/{answers.slug}.html"].find("a", href=f"{sheet.slug}.html")


def test_the_glossary_has_every_term_by_the_alphabet_and_a_way_to_each_letter(demo) -> None:  # type: ignore[no-untyped-def]
    page = demo.pages["glossary.html"]
    terms = [dt.get_text() for dt in page.find_all("dt")]
    assert sorted(terms) == sorted(term.term.replace("'", "’") for term in learning_of(demo).terms)
    letters = [a["href"].removeprefix("#") for a in page.select(".contents a")]
    assert letters == [h2["id"] for h2 in page.find_all("h2")]
    assert letters == sorted(letters, key=lambda letter: (letter == "letter-other", letter))
    for dt in page.find_all("dt"):
        letter = dt.find_parent("section").h2.get_text()
        assert dt.get_text()[0].upper() == letter or letter == "Other"


def test_a_term_is_linked_once_on_a_page_in_its_prose_and_nowhere_else(demo) -> None:  # type: ignore[no-untyped-def]
    found = 0
    for path, page in demo.trees.items():
        links = page.cssselect("a.term")
        found += len(links)
        if path != "glossary.html":  # there each entry stands for itself
            targets = [a.get("href") for a in links]
            assert len(targets) == len(set(targets)), path
        for a in links:
            around = {str(it.tag) for it in a.iterancestors()}
            assert not around & {"h1", "h2", "h3", "h4", "h5", "h6", "code", "pre", "a"}, path
            assert around & {"p", "li", "dd", "td"}, path
    assert found > 10 * len(demo.plans)
    assert demo.pages["quillmere-best.html"].select(".prose a.term")
    assert demo.pages["quillmere-best/day.html"].select(".method a.term")


def test_a_part_of_a_recipe_leads_quietly_to_the_page_that_explains_it(demo) -> None:  # type: ignore[no-untyped-def]
    explains = learning_of(demo).explains
    there = {
        normpath(join(dirname(path), a["href"]))
        for path in ("quillmere-best.html", "quillmere-best/figures.html", "quillmere-best/day.html")
        for a in demo.pages[path].select(".learn a")
    }
    assert there == {f"learning/{slug}.html" for slug in explains.values()}


def test_a_book_that_says_no_has_no_learning_and_no_link_to_it(demo, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    book = replace(demo.book, learning=None, pages=())
    files = make_site(book, (demo.plan("quillmere-best"),), Problems(), cache)
    assert not [path for path in files if path.startswith(("learning", "glossary"))]
    for path, page in trees_of(files).items():
        assert not page.cssselect("a.term, .learn, a[href*=learning], a[href*=glossary]"), path


def with_own(demo, folder: Path, cache: FrameCache, **pages: str) -> tuple[dict[str, bytes], list[str]]:  # type: ignore[no-untyped-def]
    own = folder / "theme" / "learning"
    own.mkdir(parents=True)
    for slug, text in pages.items():
        (own / f"{slug}.md").write_text(f"---\ntitle: Mine\nsummary: Mine.\n---\n\n{text}\n", "utf-8")
    (own / "contents.yaml").write_text(f"- title: All\n  pages: [{', '.join(pages)}]\n", "utf-8")
    problems = Problems()
    book = replace(demo.book, learning=read_learning(folder, problems))
    files = make_site(book, (demo.plan("quillmere-best"),), problems, cache, folder=folder, theme=folder / "theme")
    return dict(files), [str(problem) for problem in problems]


def test_an_authors_page_links_to_others_to_cautions_and_to_terms(demo, tmp_path: Path, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    text = "[a](second.md) [b](cautions) [c](glossary#wort) [d](sources) [e](../../quillmere-best.md) [f](nowhere.md)"
    files, problems = with_own(demo, tmp_path, cache, first=f"{text} [g](glossary#nonsense)", second="Words.")
    links = BeautifulSoup(files["learning/first.html"], "html.parser").select(".prose a:not(.term)")
    assert [a["href"] for a in links] == [
        "second.html",
        "../cautions.html",
        "../glossary.html#wort",
        "../sources.html",
        "../quillmere-best.html",
    ]
    assert [problem.partition(" in ")[2] for problem in problems] == [
        '"glossary#nonsense"; expected a file of this book',
        '"nowhere.md"; expected a file of this book',
    ] or len(problems) == 2
    told = [problem.partition(": warning: a link that leads nowhere")[0] for problem in problems]
    assert told == [
        f"theme/learning/first.md:6:{len(text) - len('nowhere.md')}",
        f"theme/learning/first.md:6:{len(text) + 6}",
    ]


def test_an_authors_page_called_index_is_a_problem(tmp_path: Path) -> None:
    problems = Problems()
    own = tmp_path / "theme" / "learning"
    own.mkdir(parents=True)
    (own / "index.md").write_text("---\ntitle: Mine\nsummary: Mine.\n---\n", "utf-8")
    read_learning(tmp_path, problems)
    (problem,) = problems
    assert str(problem).startswith('theme/learning/index.md:1:1: error: no page can be called "index"')


def test_texts_are_not_copied_as_they_are(demo) -> None:  # type: ignore[no-untyped-def]
    assert not [path for path in demo.files if path.endswith((".md", ".yaml"))]


def test_no_link_of_ours_leads_nowhere(demo) -> None:  # type: ignore[no-untyped-def]
    """Links of ours that lead nowhere would lose their marks without a word: every one is still there."""
    for lesson in learning_of(demo).lessons.values():
        written = re.findall(
            r"(?<!!)\[[^\]]+\]\([^)]+\)", (themes() / "learning" / f"{lesson.slug}.md").read_text("utf-8")
        )
        page = demo.pages[f"learning/{lesson.slug}.html"]
        assert len(page.select(".prose a:not(.term)")) == len(written), lesson.slug


def test_a_lesson_and_the_beer_that_shows_it_name_each_other(demo) -> None:  # type: ignore[no-untyped-def]
    """Worked out from the beers themselves: the darkest, the palest, the first of the book."""
    colours = {plan.recipe.slug: plan.figures.colour.srm.number for plan in demo.plans}
    wanted = {f"../{pick(colours, key=colours.__getitem__)}.html" for pick in (min, max)}
    assert {a["href"] for a in demo.pages["learning/colour.html"].select(".seen-in a")} == wanted
    begin = {f"../{a['href']}" for a in demo.pages["index.html"].select(".begin a")}
    assert {a["href"] for a in demo.pages["learning/first-brew-day.html"].select(".seen-in a")} < begin
    both = 0
    for path in (it for it in demo.files if it.startswith("learning/")):
        for link in demo.pages[path].select(".seen-in a"):
            beer = demo.pages[link["href"].removeprefix("../")]
            assert path in {a["href"] for a in beer.select(".shows a")}, path
            both += 1
    assert both > 12


def test_every_page_says_what_it_stands_under(demo) -> None:  # type: ignore[no-untyped-def]
    for path, page in demo.trees.items():
        nav = page.xpath("//nav[@aria-label='Where you are']")
        if path == "index.html":
            assert not nav
            continue
        above = [normpath(join(dirname(path), a.get("href"))) for a in nav[0].xpath(".//a")]
        assert above[0] == "index.html", path
        assert path not in above, path
        assert "/" not in path or len(above) > 1 or path.startswith(("chapters/",)) or path.endswith("/index.html"), (
            path
        )
        assert all(it in demo.files for it in above), path


def test_what_shows_a_lesson_is_a_figure_that_is_known(tmp_path: Path) -> None:
    (tmp_path / "theme" / "learning").mkdir(parents=True)
    page = "---\ntitle: Ours\nsummary: Of us.\nshown by: [most colour, least ABV, most coluor]\n---\nWords.\n"
    (tmp_path / "theme" / "learning" / "colour.md").write_text(page, encoding="utf-8")
    problems = Problems()
    read_learning(tmp_path, problems)
    (told,) = map(str, problems)
    assert told.startswith('theme/learning/colour.md:4:36: error: no beer is known by "most coluor"')
    assert 'did you mean "most colour"?' in told
