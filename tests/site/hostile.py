"""A small book with something in every file that a book may have, and words that its author had better not write."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path

WORDS: dict[str, str] = {
    "a script": "<script>alert(1)</script></title></style><!--",
    "an attribute": "\"><img src=x onerror=alert(1)>' onload='alert(1)",
    "links that run": "[a](javascript:alert(1)) ![b](data:text/html,x) <javascript:alert(1)> [d](vbscript:x) [e](http://[)",
    "what sets formulas": "$\\frac{1}{0$ $x$ \\alpha %s {0} {{ 7*7 }} {% x %}",
    "what ends a block of XML": "]]> & <!-- --> &#12; &#x1b; &lt; &amp;lt; \u202e \ufeff",
    "lines of a calendar": "a\\nDTSTART:1;b,c\\; END:VCALENDAR",
    "a thousand letters": "x" * 1000,
    "a thousand words": "\N{BEER MUG} of " * 1000,
    "letters of other planes": "\N{BEER MUG}\U0010fffd e\u0301 \ufdfa",
    "a way out": "../../etc/passwd",
}


def files(words: str) -> dict[str, str]:
    """The book, with the same words wherever an author has the choice of them."""
    said = json.dumps(words, ensure_ascii=False)
    zest = json.dumps(f"{words} zest", ensure_ascii=False)
    return {
        "book.yaml": f"""\
title: {said}
author: {said}
address: https://example.org/beer/
note: {said}
language: en
currency: {said}
brewhouse: {said}
brewhouses:
  ? {said}
  : batch: 20 L
    efficiency: from batches, 72 % ± 4
    boil-off: from batches, 3 L/h
    tun: 30 L
    kettle: 40 L
    mash: sparge
editions:
  - 10 L
chapters:
  - title: {said}
    about: {said}
    recipes: [best]
""",
        "pages/visit.md": f"---\ntitle: {said}\n---\n# {words}\n\n{words}\n\n| {words} |\n|---|\n| {words} |\n",
        "theme/learning/hops.md": f"---\ntitle: {said}\nsummary: {said}\n---\n{words}\n",
        "theme/learning/contents.yaml": f"- title: {said}\n  about: {said}\n  pages: [hops]\n",
        "theme/learning/glossary.yaml": f"- term: {said}\n  also: [{said}]\n  words: {said}\n  see: hops\n",
        "theme/page.html": '{% extends "!page.html" %}{% block main %}{{ view.title }}{{ super() }}{% endblock %}',
        "pantry/hops.yaml": f"""\
- name: {said}
  also: [Nemo]
  alpha: 4.5 % (4 to 6)
  aroma: {said}
  about: {said}
  origin: {said}
  source: {said}
""",
        "pantry/prices.yaml": "Nemo: 3.20 / 100 g\npale ale malt: 45.00 / 25 kg\n",
        "best.md": f"""\
---
title: {said}
summary: {said}
date: 2026-03-01
batch: 20 L
malts:
  - 3.6 kg pale ale malt
  - 220 g caramel malt 60
hops:
  - 110 g Nemo, 4.5 % alpha, 60 min
finings and spices:
  - {{name: {zest}, amount: 5 g, time: 5 min}}
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
ferment: 19 °C, 10 days
carbonation: 2.0 volumes, primed with table sugar
meant:
  bitterness to gravity: {said}
expect:
  original gravity: 1.039 ± 0.005
---
# {words}

{words}

- {words}
  `{words}`
""",
        "best/2026-03-14.md": f"""\
---
brewed: 2026-03-14
brewhouse: {said}
measured:
  before the boil: 24.7 L at 1.034
  end of the boil: 22.4 L hot at 1.041
  into the fermenter: 20.0 L
  original gravity: 1.040 at 24 °C
  log: cellar.csv, time in taken, gravity in sg
  final gravity: 1.008 at 19 °C
  packaged: 2026-03-28, 18.8 L, 100 g table sugar, bottles
tasted:
  - {json.dumps(f"2026-04-20, {words}", ensure_ascii=False)}
recipe:
  title: {said}
  batch: 20 L
  malts:
    - 3.6 kg Pale ale malt, 3 °L
  hops:
    - 110 g Nemo, 4.5 % alpha, 60 min
  yeast:
    - 11 g English ale, attenuative, dried, 76 % attenuation
  plan:
    original gravity: 1.039 ± 0.002
    final gravity: 1.009 ± 0.002
    boil volume: 24.5 L
    beer to package: 19 L
---
{words}
""",
        "best/cellar.csv": "taken,sg\n2026-03-17 07:30,1.018\n2026-03-18 07:30,1.012\n2026-03-19 07:30,1.009\n",
    }


def lay(book: Path, what: dict[str, str]) -> Path:
    """The files on the disk."""
    for name, text in what.items():
        (book / name).parent.mkdir(parents=True, exist_ok=True)
        (book / name).write_text(text, encoding="utf-8")
    return book


ODD: tuple[bytes, ...] = (
    *(b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\x07", b"\x1b[2J", b"\xc2\x85", b"\xe2\x80\xa8", b"\xed\xa0\x80", b"\r"),
    *(b"9" * 400, b"9" * 5000, b"1e400", b"-1", b"0", b"nan", b"1/0", "½".encode(), "٣".encode(), b"0.000000001"),
    *(b"[", b"]", b"{", b"}", b"&a", b"*a", b"!!python/object:os.system x", b"|", b">", b'"', b"'", b"- ", b": ", b"#"),
    *(
        b"\n",
        b"\n\n",
        b"---\n",
        b"...",
        b"\t",
        b",",
        b",,",
        "±".encode(),
        b"%",
        b"/",
        b"\\",
        b"../",
        b"$x$",
        b"{{",
        b"{%",
    ),
    *(b"[x](http://[)", b"![x](%00.png)", b"<script>", b"&#0;", b"[a]: javascript:x\n\n[a]", b"(" * 500, b"[" * 500),
    *(b"> " * 200, b"x" * 300, b"from batches", b"in stove", b"2026-02-30", b"0000-00-00", b"9999-12-31", b"1e9 L"),
    *(b"100 %", b"0 %", b"-30 \xc2\xb0C", b"110 \xc2\xb0C", b"1.2 \xc2\xb1 1.2", b"1000000 L", b"1e-9 g", b"no 10 L"),
)
"""What is put in somewhere."""


def mutated(seed: int, plain: dict[str, str]) -> tuple[str, bytes]:
    """One file of a book with a slip or three in it; the same for the same seed."""
    dice = random.Random(seed)
    name = dice.choice(sorted(plain))
    data = plain[name].encode()
    for _ in range(dice.randint(1, 3)):
        data = dice.choice(SLIPS)(data, dice)
    return name, data


def _put_in(data: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + dice.choice(ODD) + data[at:]


def _put_for_a_value(data: bytes, dice: random.Random) -> bytes:
    lines = data.split(b"\n")
    at = dice.randrange(len(lines))
    key, colon, _ = lines[at].partition(b": ")
    lines[at] = key + colon + dice.choice(ODD) if colon else dice.choice(ODD)
    return b"\n".join(lines)


def _put_for_a_word(data: bytes, dice: random.Random) -> bytes:
    words = data.split(b" ")
    words[dice.randrange(len(words))] = dice.choice(ODD)
    return b" ".join(words)


def _leave_out(data: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + data[at + dice.choice((1, 1, 3, 30)) :]


def _say_twice(data: bytes, dice: random.Random) -> bytes:
    lines = data.split(b"\n")
    at = dice.randrange(len(lines))
    return b"\n".join([*lines[:at], lines[at], *lines[at:]])


def _change_places(data: bytes, dice: random.Random) -> bytes:
    lines = data.split(b"\n")
    one, other = dice.randrange(len(lines)), dice.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return b"\n".join(lines)


SLIPS = (_put_in, _put_for_a_value, _put_for_a_value, _put_for_a_word, _leave_out, _say_twice, _change_places)


def seeds(first: int, many: int) -> Iterator[int]:
    """Seeds that follow one another."""
    yield from range(first, first + many)
