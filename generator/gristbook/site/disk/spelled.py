"""Anything that pages are made from, in words that are the same if and only if a page would be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import fields, is_dataclass
from enum import Enum
from hashlib import sha256

from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value


def digest(*them: object) -> str:
    """What some things come to, in a word."""
    whole = sha256()
    for it in them:
        for word in spelled(it):
            whole.update(word.encode("utf-8", "surrogatepass"))
            whole.update(b"\0")
    return whole.hexdigest()


def spelled(it: object) -> Iterator[str]:
    """A thing word by word. Of a value: all that is printed, its range and its movers, and not what it was made from.

    Raises
    ------
    TypeError
        Nothing is known of its kind, or it is a thing that does something.
    """
    match it:
        case None | bool() | int() | float() | bytes():
            yield repr(it)
        case str():
            yield f"'{it}"
        case Value():
            yield f"value {it.number!r} {it.unit} {it.label} {it.metric} {isinstance(it.made, Given)} {it.ends!r}"
            yield repr(sorted(it.doubts.items()))
        case Enum():
            yield f"{type(it).__qualname__} {it.name}"
        case Mapping():
            yield f"{len(it)} pairs"
            for key, value in it.items():
                yield from spelled(key)
                yield from spelled(value)
        case Set():
            yield from spelled(sorted(it, key=repr))
        case list() | tuple():
            yield f"{len(it)} things"
            for one in it:
                yield from spelled(one)
        case _ if is_dataclass(it) and not isinstance(it, type):
            yield type(it).__qualname__
            for field in fields(it):
                yield from spelled(getattr(it, field.name))
        case _:
            raise TypeError(f"nobody can say whether {it!r} is as it was")
