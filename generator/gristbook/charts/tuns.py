"""A mash from the side: how high grain and liquid stand in the tun and the kettle, from one step to the next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gristbook.charts import marks
from gristbook.charts.frame import Scale, blank, finished
from gristbook.charts.marks import ACCENT, INK, REGION, SOFT, TEXT

_TUN, _KETTLE, _TALL, _ROW = 150.0, 110.0, 120.0, 190.0


@dataclass(frozen=True, slots=True)
class Tun:
    """A step: its words, and litres: the grain's own, the liquid among and over it, and what the kettle holds."""

    title: str
    words: str
    grain_l: float
    liquid_l: float
    kettle_l: float


def tuns_chart(*, name: str, title: str, brim_l: float, tuns: Sequence[Tun]) -> str:
    """An SVG picture of a mash tun with its kettle below the tap, a row a step.

    Heights are to scale: a vessel's full height is ``brim_l`` litres. `name` comes before every id. Raises `ValueError`
    for no steps, for more than a vessel holds, and for a name that cannot begin an id.
    """
    if not tuns or any(max(tun.grain_l + tun.liquid_l, tun.kettle_l) > brim_l for tun in tuns):
        raise ValueError("a picture of a mash has steps, and vessels that hold them")
    drawn = [part for row, tun in enumerate(tuns) for part in _row(row * _ROW, tun, brim_l)]
    said = " ".join(
        f"{tun.title}: {tun.grain_l:.1f} L of grain and {tun.liquid_l:.1f} L of water in the tun, "
        f"{tun.kettle_l:.1f} L in the kettle."
        for tun in tuns
    )
    return finished(blank(kind="tuns", height=len(tuns) * _ROW), name=name, title=title, desc=said, over=drawn)


def _row(top: float, tun: Tun, brim_l: float) -> Iterator[str]:
    up = Scale(low=0, high=brim_l, start=top + 44 + _TALL, end=top + 44)
    held, pot = tun.grain_l + tun.liquid_l, 400.0
    yield marks.words(tun.title, 10, top + TEXT, weight="600")
    room = 610 - marks.length(tun.title)
    yield marks.words(marks.shortened(tun.words, room), 630, top + TEXT, anchor="end", fill=SOFT)
    yield from _vessel(10, _TUN, up, held)
    yield _grain(10, up.at(0), up.at(min(3.2 * tun.grain_l, held)))
    yield marks.words(f"{held:.1f} L in the tun", 24 + _TUN, up.at(max(held, 4)) + 8)
    yield marks.line((10 + _TUN, up.at(0) - 10), (pot, up.at(0) - 10), stroke=SOFT, width=4)
    yield from _vessel(pot, _KETTLE, up, tun.kettle_l)
    inside = f"{tun.kettle_l:.1f} L" if tun.kettle_l else "empty"
    yield marks.words(inside, pot + _KETTLE + 12, up.at(max(tun.kettle_l, 7)) + 8)
    yield marks.words("kettle", pot + _KETTLE + 12, up.at(0), fill=SOFT)


def _grain(left: float, foot: float, top: float) -> str:
    """The bed: grain that lies as high as it stands wet."""
    rows = range(int((foot - top) // 14))
    dots = (
        f"M{left + 8 + column * 16 + row % 2 * 8:.0f} {foot - 8 - row * 14:.0f}h5"
        for row in rows
        for column in range(9)
    )
    return marks.element("path", d="".join(dots), fill="none", stroke=INK, stroke_width=3)


def _vessel(left: float, wide: float, up: Scale, held_l: float) -> Iterator[str]:
    yield marks.box(left, up.at(held_l), wide, up.at(0) - up.at(held_l), fill=REGION)
    yield marks.line((left, up.at(held_l)), (left + wide, up.at(held_l)), stroke=ACCENT, width=3)
    yield marks.line(
        (left, up.end), (left, up.start), (left + wide, up.start), (left + wide, up.end), stroke=SOFT, width=2.5
    )
