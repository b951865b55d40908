"""Notes of a brew day, as a learner sends them: a line a field as a batch has it, then a blank line and free words.

The page for the day makes such a text, and a person may type one.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gristbook.problems import Place, Problems
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Fields, field_called, read_fields
from gristbook.reading.lines import bare_line
from gristbook.reading.tree import COLON, Table, Text, read_yaml
from gristbook.text.batch import filled
from gristbook.text.batch_lines import read_day
from gristbook.text.batch_vocabulary import BATCH, MEASURED

ALSO = ("brewed", "ready", "tasted", "thrown away", "no lesson")
"""What notes may say of a batch besides what was measured."""

NOTES: tuple[Field, ...] = (
    Field("recipe", f.WORDS, "The title of the recipe."),
    Field("edition", f.WORDS, "The edition that was brewed, as book.yaml writes it."),
    Field("mark", f.WORDS, "The mark of the page or the card that it was brewed by."),
    Field("packets", f.LINES, "What packets of hops said, and what was weighed of them; kept as words."),
    *(row for row in BATCH if row.name in ALSO),
    *MEASURED,
)


_ITEM = re.compile(r"\s*- .*")
"""A line of a list, which is words here, whatever colons are in it."""


@dataclass(frozen=True, slots=True)
class Notes:
    """What notes say: of which brew, and by field what a batch keeps of it, in the learner's words.

    A field of several lines has a tuple; ``words`` are the free ones, those on packets of hops first.
    """

    recipe: Text | None
    edition: str
    mark: Text | None
    filled: Mapping[str, str | tuple[str, ...]]
    words: str
    fields: Fields


def read_notes(source: str, path: str, problems: Problems) -> Notes | None:
    """The text of notes; `None` with a problem filed where it cannot be read as such."""
    lines = source.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    end = _end(lines)
    before = len(problems.errors(path))
    head = (_ITEM.sub(lambda item: item[0].replace(": ", f"{COLON} "), line) for line in lines[:end])
    tree = read_yaml("\n".join(head) + "\n", path, problems)
    if not isinstance(tree, Table):
        if len(problems.errors(path)) == before:
            problems.error(Place(path), "these are no notes", expected="original gravity: 1.041 at 24 °C")
        return None
    fields = read_fields(filled(tree), NOTES, problems, "a text of notes")
    if (day := fields.text("brewed")) is not None:
        read_day(day, bare_line(day, problems))
    packets = "; ".join(_lines(fields, "packets"))
    free = "\n".join(lines[end:]).strip()
    own = (row.name for row in NOTES if row.name not in ("recipe", "edition", "mark", "packets"))
    return Notes(
        recipe=fields.text("recipe"),
        edition=fields.words("edition"),
        mark=fields.text("mark"),
        filled={name: words for name in own if fields.given(name) and (words := _said(fields, name))},
        words="\n\n".join(it for it in (packets and f"Packets of hops: {packets}.", free) if it),
        fields=fields,
    )


def _end(lines: list[str]) -> int:
    """Where the free words begin: behind a blank line that no field of ours follows."""
    for number, line in enumerate(lines):
        after = next((it for it in lines[number:] if it.strip()), "")
        word, colon, _ = after.partition(":")
        if not line.strip() and not after[:1].isspace() and not (colon and field_called(NOTES, word)):
            return number
    return len(lines)


def _said(fields: Fields, name: str) -> str | tuple[str, ...]:
    """A field in the learner's words; several lines as a tuple."""
    if name in ("readings", "tasted"):
        return tuple(_lines(fields, name))
    return " ".join(next(iter(_lines(fields, name)), "").split())


def _lines(fields: Fields, name: str) -> Iterator[str]:
    """The lines of a field, in order; one that is no words has filed its problem."""
    lines = fields.texts(name, f"a line of {name} is words", "no blank behind a colon in it")
    return (" ".join(node.value.split()) for node in lines if node.value)
