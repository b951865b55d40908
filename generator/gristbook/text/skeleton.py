"""A recipe as it is begun: the least that is one, with what the beer's name promises."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from gristbook.model.brewhouse import Brewhouse
from gristbook.text.begun import quoted
from gristbook.text.starter import BOILED, Vessels


class _Kind(NamedTuple):
    """What beers begin with that bear one of these words; they ferment for so many days at so many degrees each."""

    words: str
    gravity: float
    base: str
    hops: str
    yeast: str
    ferment: tuple[tuple[float, int], ...] = ((19, 14),)
    volumes: float = 2.2


_SOFT, _ENGLISH = "IBU Hallertauer Mittelfrüh, 4.4 % alpha", "IBU Fuggle, 4.5 % alpha"
_WHEAT, _LAGER = r"wei(ss|ß)\w*|\w*weizen\w*", r"lager|pils\w*|helles|\w*fest\w*|märzen|rauchbier|schwarzbier|\w*bock"
_COLD = (12, 14), (4, 21)
KINDS = (
    _Kind("stout|porter", 1.050, "pale ale malt", f"30 {_ENGLISH}", "irish ale yeast"),
    _Kind("wit(bier)?", 1.048, "pilsner malt", f"14 {_SOFT}", "belgian witbier yeast", ((20, 14),), 2.5),
    _Kind(_WHEAT, 1.048, "pilsner malt", f"12 {_SOFT}", "german wheat yeast", volumes=2.5),
    _Kind(f"{_LAGER}|dunkel", 1.050, "pilsner malt", f"24 {_SOFT}", "german lager yeast", _COLD, 2.4),
    _Kind("saison", 1.050, "pilsner malt", f"25 {_SOFT}", "saison yeast", ((22, 21),), 2.5),
    _Kind("dubbel|tripel", 1.068, "pilsner malt", f"25 {_SOFT}", "belgian abbey ale yeast", ((20, 21),), 2.5),
    _Kind("ipa|pale ale", 1.056, "pale ale malt", "45 IBU Cascade, 6 % alpha", "american ale yeast, clean"),
    _Kind("", 1.045, "pale ale malt", f"25 {_ENGLISH}", "english ale yeast, attenuative"),
)
"""The first that fits is taken, and the last fits all: usual strengths and bitternesses, common practice, no source."""

EXTRACT_KG = 2.9
"""Dried malt extract in a litre of batch, for a whole unit of gravity above water, with what a kitchen leaves behind
(our own)."""
STEEPED = "steeped"
PROMISED = (
    ("stout|porter|schwarzbier", 5, "chocolate malt", STEEPED),
    ("stout|porter|mild|brown|red|amber|dubbel", 6, "caramel malt 60", STEEPED),
    ("mild|brown", 3, "chocolate malt", STEEPED),
    ("wheat", 30, "pale wheat malt", "wheat dried malt extract"),
    (f"wit(bier)?|{_WHEAT}", 50, "pale wheat malt", "wheat dried malt extract"),
    ("rye|roggenbier", 15, "rye malt", "rye dried malt extract"),
    ("dunkel", 40, "light Munich malt", "Munich dried malt extract"),
    ("oatmeal|oat", 8, "flaked oats", ""),
    ("smoked|rauchbier", 20, "beech-smoked malt", ""),
    ("(sweet|milk) stout", 6, "lactose", "lactose"),
)
"""What a word in a beer's name promises: so many hundredths of a malt, and what brings the same without a mash, if any
(common practice, no source)."""


def skeleton(title: str, brewhouse: Brewhouse | None, *, us: bool) -> str:
    """The least that is a recipe: shares of a grist, which fit any batch, weights where a pot boils less."""
    extract = brewhouse is not None and brewhouse.mash == "none"
    pot = brewhouse.kettle.number if brewhouse and extract and brewhouse.kettle else 0.0
    batch = brewhouse.batch.number if brewhouse else 0.0
    set_out = Vessels(pot, "nothing" if extract else "", batch, us=us)
    kind, topped = next(it for it in KINDS if _says(title, it.words)), bool(pot and set_out.topped)
    weight = set_out.weight(2)
    aim = f"original gravity: {kind.gravity:.3f}   # what to reach; or leave it out, and say weights below, as {weight}"
    if topped:
        aim = f"kettle: {set_out.volume(BOILED * pot)}   # the pot boils so much, and water tops it up"
    held = [f" {set_out.degrees(at)}, {days} days" for at, days in kind.ferment]
    ferment = held[0] if len(held) == 1 else "".join(f"\n  -{one}" for one in held)
    return f"""\
---
title: {quoted(title)}
{aim}
{"".join(_grist(title, kind, set_out, topped=topped))}hops:
  - {kind.hops}, 60 min   # what they bring; or their weight, as {set_out.weight(0.02)}
yeast: {kind.yeast}, dried
{"" if extract else f"mash: {set_out.degrees(66)}, 60 min{chr(10)}"}ferment:{ferment}
carbonation: {kind.volumes:g} volumes, primed with table sugar
---
"""


def _says(title: str, words: str) -> bool:
    return re.search(rf"\b({words})\b", title.casefold()) is not None


def _grist(title: str, kind: _Kind, set_out: Vessels, *, topped: bool) -> Iterator[str]:
    """The sections of what ferments: what the name promises, and the rest of what such beers are made of."""
    mashed, parts, lacks, rest = set_out.mash != "nothing", dict[str, tuple[str, int]](), False, 100
    for words, share, malt, without in PROMISED:
        if _says(title, words) and share < rest:
            section = "sugars" if malt == "lactose" else "malts" if mashed or without == STEEPED else "extracts"
            what = malt if section == "malts" else without
            if what and what not in parts:
                parts[what], rest = (section, share), rest - share
            lacks = lacks or not what
    parts = {kind.base if mashed else "light dried malt extract": ("malts" if mashed else "extracts", rest), **parts}
    how: Mapping[str, str] = {
        "malts": "" if mashed else f", steep 30 min at {set_out.degrees(68)}",
        "extracts": ", 60 min",
        "sugars": ", 10 min",
    }
    for section, said in how.items():
        lines = [(what, share) for what, (of, share) in parts.items() if of == section]
        yield f"{section}:\n" if lines else ""
        for what, share in lines:
            weight = set_out.weight(EXTRACT_KG * (kind.gravity - 1) * share / 100 * set_out.batch)
            yield f"  - {weight if topped else f'{share} %'} {what}{said}\n"
    if lacks:
        yield "meant:\n  what it is named for: it comes from grain that is mashed, and none is here\n"
