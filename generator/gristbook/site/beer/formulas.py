"""A published formula on a page: its subscripts and powers, and the numbers of a brew put into it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from markupsafe import Markup, escape

_BEFORE, _AFTER = r"(?<![A-Za-z\u0370-\u03ff0-9_°])", r"(?![A-Za-z\u0370-\u03ff0-9_₀-₉ᵢ'(])"
"""Around a whole symbol: the M of M(CO₂) and the V of V' are parts of others."""
_OPEN, _CLOSE = "\ue000", "\ue001"
"""Around a number that was put in, until the signs of multiplication stand where letters were only side by side."""

Put = str | tuple[str, ...]


def with_numbers(formula: str, numbers: Mapping[str, Put]) -> str:
    """The formula with numbers for its symbols; nothing where a symbol is not in it as it stands.

    A list of numbers can be put in only where the formula is their sum.

    >>> with_numbers("E = m p η", {"m": "3.6", "p": "0.79", "η": "0.74"})
    'E = 3.6 × 0.79 × 0.74'
    >>> with_numbers("E = Σ eᵢ", {"e": ("2.1", "0.13")})
    'E = 2.1 + 0.13'
    """
    left, equals, right = formula.partition(" = ")
    if "such that" in left:
        left, equals, right = "", "", formula
    lists = {symbol: put for symbol, put in numbers.items() if isinstance(put, tuple)}
    if lists:
        (symbol, parts), *others = lists.items()
        whole = right in (f"Σ {symbol}", f"Σ {symbol}ᵢ") and not others
        return left + equals + " + ".join(map(_bracketed, parts)) if whole and parts else ""
    for symbol in sorted(numbers, key=len, reverse=True):
        number = _OPEN + _bracketed(str(numbers[symbol])) + _CLOSE
        right, found = re.subn(_BEFORE + re.escape(symbol) + _AFTER, lambda _, n=number: n, right)  # type: ignore[misc]
        if not found:
            return ""
    return left + equals + _multiplied(right)


@lru_cache(maxsize=1024)
def drawn(formula: str) -> Markup:
    """The formula with its subscripts and powers set as such.

    >>> drawn("U = e^(−0.04 t) E_db")
    Markup('U = e<sup>−0.04 t</sup> E<sub>db</sub>')
    """
    out, rest = Markup(), formula
    while mark := re.search(r"\^\(|\^−?[\w.]+|_\w+", rest):
        out += escape(rest[: mark.start()])
        if mark[0] == "^(":
            end = _closing(rest, mark.end())
            out += Markup("<sup>{}</sup>").format(drawn(rest[mark.end() : end]))
            rest = rest[end + 1 :]
        else:
            tag = "sup" if mark[0][0] == "^" else "sub"
            out += Markup(f"<{tag}>{{}}</{tag}>").format(mark[0][1:])
            rest = rest[mark.end() :]
    return out + escape(rest)


def _bracketed(number: str) -> str:
    return f"({number})" if number.startswith("−") else number


def _multiplied(text: str) -> str:
    """Letters side by side are a product; numbers side by side would be another number."""
    text = re.sub(rf"(?<=[\d){_CLOSE}]) (?={_OPEN})", " × ", text)
    text = re.sub(rf"(?<={_CLOSE}) (?=[\d({_OPEN}])", " × ", text)
    text = re.sub(rf"(?<=\b[A-Z]) (?={_OPEN})|(?<={_CLOSE}) (?=[A-Z\u0370-\u03ff](?![a-z]))", " × ", text)
    return text.replace(_OPEN, "").replace(_CLOSE, "")


def _closing(text: str, start: int) -> int:
    """Where the bracket that was opened just before ``start`` closes."""
    depth = 1
    for index in range(start, len(text)):
        depth += {"(": 1, ")": -1}.get(text[index], 0)
        if depth == 0:
            return index
    return len(text)
