"""Names as people write them: the cases stand in `cases.md`, so that adding one needs no Python."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.pantry.lookup import Match
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.problems import Problems

PANTRY = Pantry.load(None, Problems())
LOOKED_UP = [section for section in SECTIONS if section != "allergens"]  # whose words are found within a name
NAMES = [
    (section.removesuffix("s"), name, record)
    for section in LOOKED_UP
    for record in getattr(PANTRY, section).records
    for name in (record.name, *record.also)
]


def look_up(kind: str, name: str) -> Match[Any]:
    match: Match[Any] = getattr(PANTRY, f"{kind}s").look_up(name)
    return match


def cases() -> Iterator[Any]:
    kind = ""
    for line in Path(__file__).with_name("cases.md").read_text("utf-8").splitlines():
        if line.startswith("## "):
            kind = line.removeprefix("## ")
        elif line.startswith("| ") and not line.startswith(("| written", "| ---")):
            cells = [cell.strip() for cell in line.split("|")[1:4]]
            yield pytest.param(kind, *cells, id=f"{kind}: {cells[0]}")


@pytest.mark.parametrize(("kind", "written", "found", "suggested"), list(cases()))
def test_a_name_finds_what_it_means_in_the_trade(kind: str, written: str, found: str, suggested: str) -> None:
    match = look_up(kind, written)
    assert "; ".join(record.name for record in match.found) == found
    assert match.nearest == suggested


def test_every_name_and_alias_finds_its_own_record_alone() -> None:
    for kind, name, record in NAMES:
        plural = f"{name}s" if name[-1] not in "sL%1237" else name
        for written in (name, name.upper(), f"  {name.lower()} ", name.replace(" ", "-"), plural):
            assert look_up(kind, written).found == (record,), (kind, written)


def test_the_order_of_the_words_does_not_matter() -> None:
    for kind, name, record in NAMES:
        if "°" not in name and not name.endswith(" L"):  # the unit has to stay behind its number
            turned = " ".join(reversed(name.replace(",", "").split()))
            assert record in look_up(kind, turned).found, (kind, turned)


def test_only_gives_a_record_where_nothing_is_left_to_settle() -> None:
    assert look_up("malt", "munich malt").only is None
    assert look_up("malt", "no such thing").only is None
    only = look_up("malt", "crystal 60").only
    assert only is not None
    assert only.name == "Caramel malt 60 L"


@given(st.sampled_from([section.removesuffix("s") for section in LOOKED_UP]), st.text(max_size=40))
def test_no_text_breaks_the_look_up_and_a_suggestion_is_always_a_name_that_finds(kind: str, text: str) -> None:
    match = look_up(kind, text)
    assert not (match.found and match.nearest)
    assert not match.nearest or look_up(kind, match.nearest).found


@given(st.sampled_from(NAMES), st.integers(0, 30), st.characters(categories=["Ll"], max_codepoint=0x7A))
def test_one_wrong_letter_never_finds_another_thing_alone(
    named: tuple[str, str, object], spot: int, letter: str
) -> None:
    kind, name, record = named
    spot %= len(name)
    match = look_up(kind, name[:spot] + letter + name[spot + 1 :])
    assert match.only in (None, record)
