"""Notes that a learner sends: a line a field, then free words; nothing of them is dropped in silence."""

from __future__ import annotations

from gristbook.problems import Problems
from gristbook.text.notes import Notes, read_notes

TYPED = """recipe: Bitter: the second
edition: 10 L in stove

brewed: 2026-03-14
before the boil: 12 L hot at 1.036
readings:
  - 2026-03-17, 1.018, 19 °C
  - 2026-03-20, 1.010
tasted: 2026-04-20, soft: a little sweet
packets:
  - Fuggle, 5.2 % alpha: 35 g instead of 40 g

It boiled over: twice.

And we laughed.
"""


def read(source: str) -> tuple[Notes | None, list[str]]:
    problems = Problems()
    return read_notes(source, "notes.txt", problems), [str(problem) for problem in problems]


def test_notes_typed_by_hand_are_read_field_by_field_and_the_rest_is_kept_as_words() -> None:
    notes, problems = read(TYPED)
    assert problems == []
    assert notes is not None
    assert notes.recipe is not None
    assert (notes.recipe.value, notes.edition, notes.mark) == ("Bitter: the second", "10 L in stove", None)
    assert notes.filled == {
        "brewed": "2026-03-14",
        "before the boil": "12 L hot at 1.036",
        "readings": ("2026-03-17, 1.018, 19 °C", "2026-03-20, 1.010"),
        "tasted": ("2026-04-20, soft: a little sweet",),
    }
    assert notes.words.split("\n\n") == [
        "Packets of hops: Fuggle, 5.2 % alpha: 35 g instead of 40 g.",
        "It boiled over: twice.",
        "And we laughed.",
    ]


def test_notes_that_a_mail_has_given_other_line_ends_read_alike() -> None:
    assert read(TYPED.replace("\n", "\r\n"))[0].filled == read(TYPED)[0].filled  # type: ignore[union-attr]


def test_what_no_batch_keeps_is_told_at_its_place() -> None:
    assert read("original gravty: 1.041\n")[1][0].startswith("notes.txt:1:1: error")
    assert "original gravity" in read("original gravty: 1.041\n")[1][0]
    assert read("brewed: 2026-02-30\n")[1][0].startswith("notes.txt:1:9: error")
    notes, problems = read("It went well.\n")
    assert notes is None
    assert "these are no notes" in problems[0]
