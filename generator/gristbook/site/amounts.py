"""How a value is shown, in metric and in US units, by the table of `gristbook.site.scales`.

What no kitchen measures is told finer where rounding would move it by more than a tenth of its range.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value
from gristbook.site.scales import EXACT, FINE, RULES, Row

SPACE = "\u00a0"
"""Between a number and its unit: they never part at the end of a line."""

AT_HAND = 32768
"""Numbers whose printed form is kept: those of a shelf of beers, whose workings are made before their pages are."""


NO_RANGE = (2, 0.02)
"""A range that reaches so many steps, and such a share of the number, to each side says nothing more (our own)."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A value as it is printed; ``us`` is empty where both read alike."""

    metric: str
    us: str = ""


_SINGULAR = {f"{one}s": one for one in ("pack", "piece", "bottle", "point", "volume", "day", "week")}


def amount(value: Value) -> Amount:
    """A value as it is printed: what somebody wrote down without zeros at its end, what was worked out with them."""
    worked_out = not isinstance(value.made, Given)
    return _printed(value.number, value.unit, value.metric, worked_out, _most(value))


def _rows(unit: str, metric_only: bool) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """The rows of a unit, metric and US; those of a pocket scale for what has no US form."""
    rule = RULES[unit]
    return (FINE.get(unit, rule.metric), ()) if metric_only else (rule.metric, rule.us)


AS_THEY_ARE = frozenset({"SG"} | {unit for unit, rule in RULES.items() if all(row.step for row in rule.metric)})
"""Units whose steps are the same however sure a figure is."""


def _most(value: Value) -> float:
    """How far rounding may move a value: a tenth of its range, or a two-hundredth of itself, which three digits hold.

    Nothing is asked of gravities, of what is certain, and of what a kitchen measures.
    """
    if value.unit in AS_THEY_ARE or value.certain:
        return 0.0
    low, high = value.ends
    return max((high - low) / 10, abs(value.number) / 200)


@lru_cache(maxsize=AT_HAND)
def _printed(number: float, unit: str, fine: bool, worked_out: bool, most: float) -> Amount:
    return _both(
        *(
            _text(number, _row(number, rows).kept_to(number, most), trim=not worked_out, written=not worked_out)
            if rows
            else ""
            for rows in _rows(unit, fine)
        )
    )


def amount_of(number: float, unit: str, *, worked_out: bool = False) -> Amount:
    """A bare number of a kept unit as it is printed.

    Raises
    ------
    KeyError
        The table has no rule for the unit.

    >>> amount_of(3.6, "kg")
    Amount(metric='3.60\\xa0kg', us='7\\xa0lb 15\\xa0oz')
    """
    return _printed(number, unit, False, worked_out, 0.0)


def span(value: Value) -> Amount | None:
    """The low and high that nine batches in ten fall between; nothing where they read alike."""
    return None if value.certain else _span(value.number, value.ends, value.unit, value.metric, _most(value))


@lru_cache(maxsize=AT_HAND)
def _span(number: float, ends: tuple[float, float], unit: str, fine: bool, most: float) -> Amount | None:
    both = _rows(unit, fine)
    if _all_but_none(number, ends, _row(number, both[0]).kept_to(number, most)):
        return None
    metric, us = (_between(number, ends, rows, most) if rows else "" for rows in both)
    return _both(metric, us) if metric else None


def moved(then: Value, now: Value, *, us: bool = False) -> str:
    """How far a figure has moved, with its sign, as the two printed numbers differ; "" where they read alike.

    >>> from gristbook.sheet.value import constant
    >>> moved(constant(1.0431, "SG"), constant(1.0462, "SG")), moved(constant(67, "°C"), constant(66, "°C"), us=True)
    ('+0.003', '−2\\xa0°F')
    """
    metric, in_us = _rows(now.unit, now.metric)
    smaller = min((it.number for it in (then, now) if it.number), key=abs, default=0.0)
    row = _row(smaller, (us and in_us) or metric)
    row = max((row.kept_to(it.number, _most(it)) for it in (then, now)), key=lambda it: it.places)
    apart = row.rounded(now.number) - row.rounded(then.number)
    if abs(apart) < EXACT:
        return ""
    return f"{'+' if apart > 0 else '−'}{_text(abs(apart) * row.size, replace(row, zero=0.0), trim=True)}"


def _all_but_none(number: float, ends: tuple[float, float], row: Row) -> bool:
    """Whether a range reaches no further than `NO_RANGE` of what goes by steps, and of shares."""
    steps, share = NO_RANGE
    least = row.step or (10**-row.places if row.unit == "%" else 0.0)
    off = max(abs(row.rounded(end) - row.rounded(number)) for end in ends)
    return off <= min(steps * least, share * abs(row.rounded(number))) + EXACT


def from_to(low: float, high: float, unit: str) -> Amount:
    """A span of bare numbers, as it is printed.

    >>> from_to(17, 22, "°C")
    Amount(metric='17 to 22\\xa0°C', us='63 to 72\\xa0°F')
    """
    first, last = amount_of(low, unit), amount_of(high, unit)
    us = f"{first.us.partition(SPACE)[0]} to {last.us}" if last.us else ""
    return Amount(f"{first.metric.partition(SPACE)[0]} to {last.metric}", us)


def bare(number: float) -> str:
    """A number for a machine, to nine digits: the same on every computer."""
    return f"{number:.9g}"


def _both(metric: str, us: str) -> Amount:
    return Amount(metric, "" if us == metric else us)


def _between(number: float, span: tuple[float, float], rows: tuple[Row, ...], most: float) -> str:
    """Both ends as the number itself is printed, the unit said once; nothing where they read alike."""
    row = _row(number, rows).kept_to(number, most)
    ends = [_text(end, row, trim=True) for end in span]
    if ends[0] == ends[1]:
        return ""
    if any("." in end for end in ends):
        ends = [_text(end, row) for end in span]
    (first, _, unit), (_, _, other) = (end.partition(SPACE) for end in ends)
    return f"{first} and {ends[1]}" if unit == other and SPACE not in unit else f"{ends[0]} and {ends[1]}"


_BARE = frozenset({"lb oz", "oz", "gal", "packs", "pieces", "days", "°C"})
"""Units after whose numbers nobody writes zeros."""


def _text(number: float, row: Row, *, trim: bool = False, written: bool = False) -> str:
    """A number as a row prints it, with no zeros at its end where it may be trimmed; what is written stays."""
    trim = (row.trim and trim) or row.unit in _BARE
    row = row if row.trim == trim else replace(row, trim=trim)
    shown = row.rounded(number, written=written)
    if row.unit == "lb oz":
        return _pounds(shown, row)
    digits = _digits(shown, row)
    unit = _SINGULAR.get(row.unit, row.unit) if digits == "1" else row.unit
    return f"{digits}{SPACE}{unit}" if unit else digits


def _row(number: float, rows: tuple[Row, ...]) -> Row:
    """The first row that the number reaches, or the one above if rounding lifts it there; none is in the kept unit."""
    if number == 0:
        return replace(next((row for row in rows if row.size == 1.0 and not row.even), rows[0]), trim=True)
    if len(rows) == 1:
        return rows[0]
    rows = tuple(row for row in rows if not row.even or number % row.size == 0) or rows
    place = next((n for n, row in enumerate(rows) if abs(number) >= row.least), len(rows) - 1)
    row = rows[place]
    lifted = place > 0 and abs(row.rounded(number) - row.zero) * row.size >= rows[place - 1].least * (1 - 1e-9)
    return rows[place - 1] if lifted else row


def _pounds(ounces: float, row: Row) -> str:
    pounds, rest = divmod(ounces, 16)
    whole = f"{pounds:.0f}{SPACE}lb"
    return f"{whole} {_digits(round(rest, row.places), row)}{SPACE}oz" if round(rest, row.places) else whole


def _digits(shown: float, row: Row) -> str:
    digits = f"{shown:.{row.places}f}"
    if row.trim and "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    return signed(digits)


def signed(digits: str) -> str:
    """Digits with a true minus in front, and none before nothing."""
    if not digits.startswith("-"):
        return digits
    return digits[1:] if set(digits) <= set("-0.") else "−" + digits[1:]
