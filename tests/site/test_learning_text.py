"""The learning pages' text: whole, plainly written, true to the figures, with a caution where a thing can hurt."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml
from markdown_it import MarkdownIt
from markdown_it.token import Token

from gristbook.model.figures import FIGURES as NAMED
from gristbook.site.addresses import slug

TEXT = Path(__file__).parents[2] / "themes" / "learning"
LONGER = {"first-brew-day", "what-went-wrong"}
READER = MarkdownIt("commonmark").enable("table")
TO_DO, FIGURES = "Try this", "On a recipe page"


def read(path: Path) -> tuple[dict[str, str], str]:
    """Front matter and body, hard spaces as soft ones."""
    parts = re.fullmatch(r"---\n(.*?\n)---\n(.*)", path.read_text("utf-8").replace("\u00a0", " "), re.DOTALL)
    assert parts is not None, f"{path.name} has no front matter"
    return yaml.safe_load(parts[1]), parts[2]


PAGES = {path.stem: read(path) for path in sorted(TEXT.glob("*.md"))}
CONTENTS: list[dict[str, Any]] = yaml.safe_load((TEXT / "contents.yaml").read_text("utf-8"))
GLOSSARY: list[dict[str, Any]] = yaml.safe_load((TEXT / "glossary.yaml").read_text("utf-8"))
FORMS = [form for entry in GLOSSARY for form in (entry["term"], *entry.get("also", []))]
EVERY_PAGE = pytest.mark.parametrize("page", PAGES)


def tokens(page: str) -> Iterator[Token]:
    for token in READER.parse(PAGES[page][1]):
        yield token
        yield from token.children or []


def headings(page: str) -> list[tuple[int, str]]:
    parsed = READER.parse(PAGES[page][1])
    return [(int(a.tag[1]), b.content) for a, b in pairwise(parsed) if a.type == "heading_open"]


def links(page: str) -> list[tuple[str, str]]:
    return re.findall(r"(?<!!)\[([^\]]+)\]\(([^)]+)\)", " ".join(PAGES[page][1].split()))


def sentences(words: str) -> int:
    return len(re.findall(r"[.?](?=\s|$)", words))


def test_every_page_is_listed_once_or_is_the_answers_to_a_sheet_that_is() -> None:
    listed = [page for group in CONTENTS for page in group["pages"]]
    answers = [front["answers"] for front, _ in PAGES.values() if "answers" in front]
    assert sorted(listed + answers) == sorted(PAGES)
    assert answers, "there is a lesson sheet, and its answers stand apart"


def test_every_group_has_a_title_and_says_what_it_is_about() -> None:
    for group in CONTENTS:
        assert group.keys() == {"title", "about", "pages"}
        assert group["about"].endswith(".")


@EVERY_PAGE
def test_a_page_says_in_its_front_matter_what_it_is(page: str) -> None:
    front, _ = PAGES[page]
    assert {"title", "summary"} <= front.keys() <= {"title", "summary", "kind", "answers", "shown by"}
    assert front["summary"].endswith(".")
    assert sentences(front["summary"]) == 1
    assert front.get("kind", "lesson") == "lesson"
    assert ("kind" in front) == ("answers" in front)


@EVERY_PAGE
def test_a_page_is_short(page: str) -> None:
    words = len(PAGES[page][1].split())
    assert 250 <= words <= (2000 if page in LONGER else 1200)


@EVERY_PAGE
def test_headings_begin_under_the_title_and_skip_no_level(page: str) -> None:
    level = 1
    for found, _ in headings(page):
        assert 2 <= found <= level + 1
        level = found
    names = [words for _, words in headings(page)]
    assert len(names) == len(set(names))


@EVERY_PAGE
def test_a_page_holds_no_raw_html(page: str) -> None:
    assert not [token.content for token in tokens(page) if token.type.startswith("html")]


@EVERY_PAGE
def test_every_link_leads_somewhere(page: str) -> None:
    terms = {slug(entry["term"]) for entry in GLOSSARY}
    for words, address in links(page):
        path, _, fragment = address.partition("#")
        if path == "glossary":
            assert not fragment or fragment in terms, words
        else:
            assert not fragment, words
            assert path in ("cautions", "sources") or path.removesuffix(".md") in PAGES, words


def test_every_cited_work_is_on_the_page_of_sources(demo) -> None:  # type: ignore[no-untyped-def]
    works = [heading.get_text() for heading in demo.pages["sources.html"].find_all("h3")]
    cited = {words for page in PAGES for words, address in links(page) if address == "sources"}
    assert len(cited) >= 10
    for words in cited:
        said = [word for word in re.findall(r"\w+", words) if word != "and"]
        assert any(all(re.search(rf"\b{word}\b", work) for word in said) for work in works), words


@EVERY_PAGE
def test_a_page_ends_with_a_thing_to_do_and_the_figures_it_is_about(page: str) -> None:
    assert [words for level, words in headings(page) if level == 2][-2:] == [TO_DO, FIGURES]


def last_section(page: str) -> str:
    return PAGES[page][1].rpartition(f"## {FIGURES}")[2]


@EVERY_PAGE
def test_figures_are_called_by_their_names(page: str) -> None:
    names = {row.words for row in NAMED}
    looked_at = " ".join(line for line in PAGES[page][1].splitlines() if line.startswith("- **Look at:**"))
    text = " ".join((looked_at + last_section(page)).replace("**", "").split())
    said = {words[0].lower() + words[1:] for words in re.findall(r"(?<!\*)\*([^*]+)\*(?!\*)", text)}
    assert said <= names
    assert said or "**" in last_section(page)


def test_every_part_of_a_beers_pages_that_a_learner_is_sent_to_is_there(demo) -> None:  # type: ignore[no-untyped-def]
    slugs = [plan.recipe.slug for plan in demo.plans]
    pages = [page for slug in slugs for page in (f"{slug}.html", f"{slug}/figures.html", f"{slug}/day.html")]
    recipes = [" ".join(demo.pages[page].get_text(" ").split()) for page in pages]
    for page in PAGES:
        for part in re.findall(r"\*\*([^*]+)\*\*", " ".join(last_section(page).split())):
            assert any(part in text for text in recipes), f"{page}: {part}"


def test_what_went_wrong_tells_causes_figure_and_remedy_of_every_symptom() -> None:
    symptoms = PAGES["what-went-wrong"][1].split("\n### ")[1:]
    assert len(symptoms) >= 18
    for symptom in symptoms:
        told = re.findall(r"^- \*\*(.+?):\*\* \S", symptom.split("\n## ")[0], re.MULTILINE)
        assert told == ["Likely", "Look at", "Now and next time"], symptom


CAUTIONS = {
    "malt-and-mash": "scald, bag, children",
    "base-and-specialty": "dust, mask, rollers, allergens",
    "adjuncts-and-sugars": "heat off, allergen, foam",
    "extract-and-kits": "scorches, off the heat, into glass, gloves",
    "hops-and-time": "dog, climbs",
    "yeast": "botulism, airlock, carbon dioxide, heavy bottles",
    "pitching-and-temperature": "both arms, residual-current, carbon dioxide",
    "water": "asthma, grams, allergen, goggles, never water into it",
    "cleaning": "bleach never with acid, ammonia, peracetic, goggles, never water into them, no flame,"
    " makers' instructions",
    "measuring": "scalds, glass",
    "first-brew-day": "scald, boil-over, carbon monoxide, outdoors, residual-current, peracetic, hot wort into glass,"
    " botulism, dog, allergens, two people, carbon dioxide, under-age, pregnant, drives",
    "packaging": "if they agree, goggles, gloves, towel, relief valve, upright, regulator, carbon dioxide,"
    " diastatic, as the law asks, their makers",
    "gravity-and-strength": "under age, pregnant, driving, distilling, licence",
    "balance": "of age, pregnant, driving",
    "design-a-recipe": "allergen, priming",
    "malt-to-gravity": "scalds, heat off",
    "final-gravity": "never bottle by the estimate, two readings that agree",
    "design-from-extract": "heat off, scalds, keep it off the base, hot wort into glass, pitch the same day",
    "choose-hops": "dog, climb, two readings",
    "choose-yeast": "diastatic, a week apart, heavy bottles",
    "a-starter": "never seal it, bursts, cracks a jar, flask, botulism, loosely",
    "notes": "drives, gushes",
    "reading-a-figure": "bottles burst",
    "what-went-wrong": "gush, goggles, towel, scalds, airlock",
    "two-jugs": "barley, scalds, heatproof, carbon monoxide, dog, children, overnight",
    "two-jugs-answers": "botulism, dog",
}
"""Words of the cautions that a page cannot do without."""


@pytest.mark.parametrize("page", CAUTIONS)
def test_what_can_hurt_is_said_where_it_stands(page: str) -> None:
    text = " ".join(PAGES[page][1].casefold().split())
    assert [words for words in CAUTIONS[page].split(", ") if words not in text] == []
    assert "**take care.**" in text or "**dangerous here:**" in text


ADVERTISING = r"!(?!\[)|\b(?:delve|journey|unlock|crucial|awesome|amazing|game.?changer|elevate|not just)\b"


@EVERY_PAGE
def test_the_words_are_plain_and_belong_to_no_book(page: str) -> None:
    front, body = PAGES[page]
    text = f"{front['title']} {front['summary']} {body}".replace("](", "] (")
    assert not re.findall(ADVERTISING, text, re.IGNORECASE)
    assert not re.findall(r"\b(?:Quillmere|Maud|Tarrow)\b", text)
    assert not re.findall(r"\b(?:flavor|color|fiber|gray|sanitiz\w+|fermentor|liter)s?\b", text)


def test_the_glossary_has_the_words_of_the_trade_each_once() -> None:
    assert len(GLOSSARY) >= 110
    folded = [form.casefold() for form in FORMS]
    assert sorted(folded) == sorted(set(folded))
    anchors = [slug(entry["term"]) for entry in GLOSSARY]
    assert len(anchors) == len(set(anchors))


@pytest.mark.parametrize("entry", GLOSSARY, ids=lambda entry: slug(entry["term"]))
def test_a_term_is_told_in_one_to_three_sentences_and_leads_to_a_page(entry: dict[str, Any]) -> None:
    assert {"term", "words"} <= entry.keys() <= {"term", "words", "also", "see"}
    assert 1 <= sentences(entry["words"]) <= 3
    assert entry["words"].endswith(".")
    assert entry.get("see", "yeast") in PAGES


def test_no_plain_word_of_english_becomes_a_term() -> None:
    plain = {
        "acid",
        "base",
        "body",
        "boil",
        "cap",
        "cold",
        "dry",
        "gas",
        "head",
        "hot",
        "point",
        "points",
        "power",
        "rack",
    }
    plain |= {"rest", "run", "set", "stand", "strike", "sugar", "volume", "volumes", "water", "working"}
    assert not plain & {form.casefold() for form in FORMS}


def test_a_figures_words_of_the_trade_are_in_the_glossary() -> None:
    everyday = re.compile(r"sugar|fruit|total water|boil|bitterness|colour|beer to package|bottle|days|small bottle")
    terms = re.compile("|".join(rf"(?<!\w){re.escape(form)}(?!\w)" for form in FORMS), re.IGNORECASE)
    unknown = [row.words for row in NAMED if not terms.search(row.words) and not everyday.search(row.words)]
    assert unknown == []
