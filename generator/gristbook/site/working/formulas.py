"""A published formula on a page, with its subscripts and powers."""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup, escape


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


def _closing(text: str, start: int) -> int:
    """Where the bracket that was opened just before ``start`` closes."""
    depth = 1
    for index in range(start, len(text)):
        depth += {"(": 1, ")": -1}.get(text[index], 0)
        if depth == 0:
            return index
    return len(text)
