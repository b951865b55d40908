"""Learning pages and glossary: the author's are laid over ours by name, and nothing in them is silently wrong."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gristbook.model.learning import RECIPE_PARTS, Learning
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.text.learning import read_learning

CONTENTS = "- title: First\n  about: To begin with.\n  pages: [malt, sheet]\n- title: Then\n  pages: [hops]\n"
GLOSSARY = "- term: Wort\n  also: [worts]\n  words: Unfermented beer.\n  see: malt\n- term: ale\n  words: A beer.\n"
PAGES = {
    "malt": "title: Malt\nsummary: Grain.",
    "hops": "title: Hops\nsummary: Cones.",
    "sheet": "title: A sheet\nsummary: Questions.\nkind: lesson\nanswers: answers",
    "answers": "title: Answers\nsummary: What we found.",
}


@pytest.fixture
def ours(tmp_path: Path) -> Path:
    """A folder of themes with four pages and two terms."""
    folder = tmp_path / "ours"
    write(folder / "learning", CONTENTS, GLOSSARY, "hops: hops\n", **PAGES)
    return folder


def write(folder: Path, contents: str = "", glossary: str = "", explains: str = "", **pages: str) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    texts = {"contents.yaml": contents, "glossary.yaml": glossary, "explains.yaml": explains}
    texts |= {f"{slug}.md": f"---\n{front}\n---\n\nProse of {slug}.\n" for slug, front in pages.items()}
    for name, text in texts.items():
        if text:
            (folder / name).write_text(text, "utf-8")


def read(ours: Path, book: Path | None = None, asked: str = "yes") -> tuple[Learning, list[str]]:
    problems = Problems()
    found = read_learning(book or ours.parent / "book", problems, asked, ours)
    return found, [str(problem) for problem in problems]


def own(ours: Path) -> Path:
    return ours.parent / "book" / "theme" / "learning"


def test_pages_come_in_the_order_of_their_groups_and_answers_stand_apart(ours: Path) -> None:
    learning, problems = read(ours)
    assert problems == []
    assert [lesson.slug for lesson in learning.in_order()] == ["malt", "sheet", "hops"]
    assert [(page.slug, sheet.slug) for page, sheet in learning.apart()] == [("answers", "sheet")]
    assert learning.lessons["malt"].prose == "Prose of malt.\n"
    assert [(term.term, term.forms, term.see) for term in learning.terms] == [
        ("ale", ("ale",), ""),
        ("Wort", ("Wort", "worts"), "malt"),
    ]
    assert learning.explains == {"hops": "hops"}


def test_a_file_of_the_authors_stands_in_the_place_of_ours(ours: Path) -> None:
    write(own(ours), malt="title: Malt, by me\nsummary: Mine.")
    learning, problems = read(ours)
    assert problems == []
    assert [lesson.title for lesson in learning.in_order()] == ["Malt, by me", "A sheet", "Hops"]
    assert learning.lessons["malt"].place is not None
    assert learning.lessons["hops"].place is None


def test_a_book_of_its_own_pages_alone_has_nothing_of_ours(ours: Path) -> None:
    write(own(ours), "- title: Mine\n  pages: [malt]\n", "- term: wort\n  words: Mine.\n", malt="title: M\nsummary: S.")
    learning, problems = read(ours, asked="own")
    assert problems == []
    assert grouped(learning) == {"Mine": ("malt",)}
    assert [term.term for term in learning.terms] == ["wort"]
    assert learning.explains == {}


def grouped(learning: Learning) -> dict[str, tuple[str, ...]]:
    return {group.title: group.pages for group in learning.groups}


def test_a_page_of_the_authors_that_is_listed_takes_none_of_ours_away(ours: Path) -> None:
    write(own(ours), "- title: At the mill\n  about: Ours.\n  pages: [weir]\n", weir="title: Weir\nsummary: Water.")
    learning, problems = read(ours)
    assert problems == []
    assert grouped(learning) == {"First": ("malt", "sheet"), "Then": ("hops",), "At the mill": ("weir",)}
    assert [term.see for term in learning.terms] == ["", "malt"]


def test_an_authors_list_is_laid_over_ours_page_by_page(ours: Path) -> None:
    text = "- title: then\n  pages: [weir, malt]\n- title: Then\n  about: Later.\n  pages: [sheet]\n"
    write(own(ours), text, weir="title: Weir\nsummary: Water.")
    learning, problems = read(ours)
    assert problems == []
    assert grouped(learning) == {"Then": ("sheet", "weir", "malt", "hops")}
    assert learning.groups[0].about == "Later."


def test_an_authors_list_may_leave_pages_out(ours: Path) -> None:
    write(own(ours), "- title: First\n  without: [malt, sheet]\n")
    learning, problems = read(ours)
    assert problems == []
    assert list(learning.lessons) == ["hops"]
    assert [term.see for term in learning.terms] == ["", ""]  # a page that is not there explains nothing


def test_a_term_of_the_authors_is_laid_over_ours_and_the_others_stay(ours: Path) -> None:
    write(own(ours), glossary="- term: wort\n  words: Mine.\n- term: Zest\n  words: Peel.\n")
    learning, problems = read(ours)
    assert problems == []
    assert [(term.term, term.words) for term in learning.terms] == [
        ("ale", "A beer."),
        ("wort", "Mine."),
        ("Zest", "Peel."),
    ]


@pytest.mark.parametrize(
    ("name", "text", "problem"),
    [
        ("malt.md", "no front matter", 'malt.md:1:1: error: no front matter; expected a first line "---"'),
        ("malt.md", "---\ntitle: Malt\n---\n", "malt.md:2:1: error: a learning page needs summary; expected summary:"),
        ("malt.md", "---\ntitle: M\nsumary: S\n---\n", 'did you mean "summary"?'),
        ("malt.md", "---\ntitle: [1]\nsummary: S\n---\n", "malt.md:2:8: error: title cannot be a list"),
        ("malt.md", "---\ntitle: M\nsummary: S\nkind: leson\n---\n", 'kind cannot be "leson"'),
        ("malt.md", "---\ntitle: M\nsummary: S\nanswers: answrs\n---\n", 'no learning page "answrs.md"; did you mean'),
        (
            "extra.md",
            "---\ntitle: M\nsummary: S\n---\n",
            "extra.md:2:1: warning: this learning page stands in no group",
        ),
        ("contents.yaml", "title: T\n", "contents.yaml:1:1: error: contents.yaml is not a list"),
        ("contents.yaml", "- words\n", "contents.yaml:1:3: error: a group is a table"),
        ("contents.yaml", "- pages: [malt]\n", "contents.yaml:1:3: error: a group needs title"),
        ("contents.yaml", "- title: T\n  pages: [mallt]\n", 'contents.yaml:2:11: error: no learning page "mallt.md"'),
        ("contents.yaml", "- title: T\n  pages: [malt, malt]\n", '"malt" stands in a group already'),
        ("contents.yaml", "- title: T\n  pages: [[malt]]\n", "a learning page's name is a word"),
        ("contents.yaml", "- title: [\n", "contents.yaml:"),
        ("glossary.yaml", "wort: words\n", "glossary.yaml:1:1: error: glossary.yaml is not a list"),
        ("glossary.yaml", "- term: x\n", "glossary.yaml:1:3: error: a term needs words"),
        ("glossary.yaml", "- term: x\n  words: y\n  also: [[z]]\n", "another shape of a term is words"),
        ("glossary.yaml", "- term: x\n  words: y\n  see: mallt\n", 'no learning page "mallt.md"'),
        ("explains.yaml", "- hops\n", "explains.yaml:1:1: error: explains.yaml is not a table"),
        ("explains.yaml", "hopps: hops\n", 'a recipe\'s page has no part "hopps"; did you mean "hops"?'),
        ("explains.yaml", "hops: hopps\n", 'no learning page "hopps.md"'),
        ("explains.yaml", "hops: [hops]\n", "a learning page's name is a word"),
    ],
)
def test_what_is_wrong_in_an_authors_file_is_a_problem_at_its_place_and_ours_stays(
    ours: Path, name: str, text: str, problem: str
) -> None:
    own(ours).mkdir(parents=True)
    (own(ours) / name).write_text(text, "utf-8")
    learning, problems = read(ours)
    assert len(problems) == 1
    assert problems[0].startswith("theme/learning/")
    assert problem in problems[0]
    assert len(learning.terms) >= 2
    assert {"malt", "sheet", "hops"} <= set(learning.lessons)


def test_a_file_that_is_no_text_is_a_problem(ours: Path) -> None:
    own(ours).mkdir(parents=True)
    (own(ours) / "glossary.yaml").write_bytes(b"\xff\xfe\x00")
    (own(ours) / "malt.md").mkdir()
    assert [problem.partition(": error: ")[2][:12] for problem in read(ours)[1]] == ["this file is", "this file ca"]


@given(text=st.text(max_size=80), name=st.sampled_from(["malt.md", "contents.yaml", "glossary.yaml", "explains.yaml"]))
@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_text_is_read_or_is_a_problem(ours: Path, text: str, name: str) -> None:
    own(ours).mkdir(parents=True, exist_ok=True)
    head = {"malt.md": "---\ntitle: M\nsummary: ", "contents.yaml": "- title: ", "glossary.yaml": "- term: "}
    for before in ("", head.get(name, "hops: ")):
        (own(ours) / name).write_text(before + text, "utf-8", errors="surrogatepass", newline="\n")
        learning, problems = read(ours)
        assert all(problem.startswith("theme/learning/") for problem in problems)
        assert {slug for group in learning.groups for slug in group.pages} <= set(learning.lessons)


def test_our_own_texts_are_held_to_the_same_as_an_authors(tmp_path: Path) -> None:
    """Read as if they were his: every file in its group, every name one that is there, no key misspelt."""
    nothing = tmp_path / "nothing"
    nothing.mkdir()
    shutil.copytree(themes() / "learning", tmp_path / "theme" / "learning")
    learning, problems = read(nothing, tmp_path)
    assert problems == []
    assert len(learning.terms) >= 60
    assert len(learning.lessons) >= 15
    assert set(learning.explains) == set(RECIPE_PARTS)
    forms = [form.casefold() for term in learning.terms for form in term.forms]
    assert len(forms) == len(set(forms))
