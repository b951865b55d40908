"""Front matter as a person would type it, from words: what it writes, our reader reads as the same words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

Content: TypeAlias = "str | Sequence[str] | Mapping[str, Content]"
"""What may stand behind a key: words, lines, or a table; "" is a blank to be filled in."""

STEP = "  "


def written(content: Mapping[str, Content], indent: str = "") -> Iterator[str]:
    """The lines of a table, deeper ones under it."""
    for key, value in content.items():
        if isinstance(value, str):
            yield f"{indent}{quoted(key)}: {quoted(value)}".rstrip() if value else f"{indent}{quoted(key)}:"
        elif isinstance(value, Mapping):
            yield f"{indent}{quoted(key)}:"
            yield from written(value, indent + STEP)
        else:
            yield f"{indent}{quoted(key)}:"
            yield from (f"{indent}{STEP}- {quoted(line)}" for line in value)


def quoted(words: str) -> str:
    """Words as they stand where YAML lets them, else in quotation marks."""
    marks = ": " in words or " #" in words or words.endswith(":")
    if words[:1].isalnum() and words.isprintable() and not marks:
        return words
    if words.isprintable():
        return "'" + words.replace("'", "''") + "'"
    return '"' + "".join(map(_escaped, words)) + '"'


def _escaped(letter: str) -> str:
    if letter in '"\\':
        return f"\\{letter}"
    return letter if letter.isprintable() else f"\\U{ord(letter):08X}"
