"""The colour swatch: a beer as a glass of it looks, beside the span of its style."""

from collections.abc import Iterator, Sequence

from gristbook.charts import marks
from gristbook.charts.frame import Scale, blank, finished
from gristbook.charts.marks import INK, SOFT, TEXT

_LEFT, _RIGHT = 10.0, 630.0
_BEER, _SPAN = 96.0, 48.0


def colour_swatch(
    *,
    name: str,
    title: str,
    beer: str,
    beer_label: str,
    depth_cm: float,
    style_span: Sequence[str] = (),
    style_label: str = "",
    beer_place: float | None = None,
) -> str:
    """An SVG picture of a beer's colour through one depth, above its style's span from low to high.

    `style_span` are the style's colours through the same, palest first, none without a style; `beer_place` is
    where in it the beer stands, 0 at its low and 1 at its high end. A place beyond is held at the end with an arrow
    and said. `name` comes before every id. Raises `ValueError` for a name that cannot begin an id.
    """
    height = 36 + _BEER + 36 + ((52 + _SPAN + 40) if style_span else 0)
    across = Scale(low=0, high=1, start=_LEFT, end=_RIGHT)
    said = f"{beer_label}, seen through {depth_cm:g} cm."
    if style_span:
        said += f" Below, {style_label}, from the palest to the darkest."
    if style_span and beer_place is not None:
        said += f" {_place_said(beer_place)}"
    drawn = [
        *_beer(beer, beer_label, depth_cm),
        *_span(across, style_span, style_label, beer_place),
    ]
    return finished(blank(kind="swatch", height=height), name=name, title=title, desc=said, over=drawn)


def _beer(beer: str, label: str, depth_cm: float) -> Iterator[str]:
    yield marks.words(marks.shortened(label, _RIGHT - _LEFT), _LEFT, TEXT + 2)
    yield marks.box(_LEFT, 36, _RIGHT - _LEFT, _BEER, fill=beer, stroke=SOFT, stroke_width=1)
    yield marks.words(f"through {depth_cm:g} cm of beer", _LEFT, 36 + _BEER + 26, fill=SOFT)


def _span(across: Scale, span: Sequence[str], label: str, place: float | None) -> Iterator[str]:
    if not span:
        return
    top = 36 + _BEER + 36 + 52
    width = (_RIGHT - _LEFT) / len(span)
    yield marks.words(marks.shortened(label, _RIGHT - _LEFT), _LEFT, top - 14)
    for patch, colour in enumerate(span):
        # Each reaches to the far end and is covered by the next: patches side by side show a seam.
        left = _LEFT + patch * width
        yield marks.box(left, top, _RIGHT - left, _SPAN, fill=colour)
    yield marks.box(_LEFT, top, _RIGHT - _LEFT, _SPAN, fill="none", stroke=SOFT, stroke_width=1)
    if place is not None:
        yield from _tick(across, place, top + _SPAN)


def _tick(across: Scale, place: float, y: float) -> Iterator[str]:
    """Where the beer stands under the row of its style; beyond it, an arrow that points outwards."""
    x, baseline = across.held(place), y + 14 + TEXT
    if 0 <= place <= 1:
        yield marks.line((x, y), (x, y + 12), width=2.5)
        half = marks.length("this beer") / 2
        yield marks.words("this beer", min(max(x, _LEFT + half), _RIGHT - half), baseline, anchor="middle")
        return
    out = -1 if place < 0 else 1
    middle = baseline - 0.3 * TEXT
    yield marks.shape((x, middle), (x - out * 16, middle - 8), (x - out * 16, middle + 8), fill=INK)
    words = f"this beer is {'paler' if place < 0 else 'darker'}"
    yield marks.words(words, x - out * 24, baseline, anchor="start" if place < 0 else "end")


def _place_said(place: float) -> str:
    if place < 0:
        return "This beer is paler than the style."
    if place > 1:
        return "This beer is darker than the style."
    return f"This beer stands {place:.0%} of the way from the palest to the darkest."
