"""Figures in words: colour after a guideline of styles, balance in our own, with the numbers always beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from gristbook.model.hop import Hop
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stage, Stand
from gristbook.model.style import Style
from gristbook.pantry.colours import colour_words
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of
from gristbook.targets.results import Grist

BALANCES: tuple[tuple[float, str], ...] = (
    (0.4, "malt leads"),
    (0.6, "even"),
    (0.85, "hops lead"),
    (inf, "bitter"),
)
"""Up to this bitterness (IBU) for a point of gravity, the words (common practice, no source)."""

KEPT: tuple[tuple[float, str], ...] = (
    (7.5, "flavour and aroma"),
    (22.5, "flavour, a little aroma"),
    (40.0, "a little flavour"),
    (inf, "mostly bitterness"),
)
"""Up to these minutes in the boil, what a hop keeps besides bitterness (common practice, no source)."""

NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
MONTHS_FROM_DAYS, DAYS_IN_A_MONTH = 84.0, 30.44


def colour_word(srm: float) -> str:
    """What one would call a beer of this colour, as it is printed: one number has one word.

    >>> colour_word(9.7), colour_word(30.4)
    ('amber', 'dark brown')
    """
    return _upto(round(srm, 1 if srm < 10 else 0), colour_words())


def balance_words(ratio: float) -> str:
    """What leads in a beer of this bitterness to gravity.

    >>> balance_words(0.77)
    'hops lead'
    """
    return _upto(ratio, BALANCES)


def kept_words(hop: Hop) -> str:
    """What an addition of hops gives besides bitterness, and what that smells of."""
    match hop.use:
        case BeforePackaging():
            kept = "aroma"
        case Stage.MASH:
            kept = "a little bitterness, of which none is reckoned"
        case Stage():
            kept = "aroma"
        case Stand():
            kept = "flavour and aroma"
        case FirstWort():
            kept = "mostly bitterness"
        case BeforeTheEnd(minutes):
            kept = _upto(minutes.number, KEPT)
    return f"{kept}: {hop.aroma.replace(';', ', ')}" if hop.aroma and "mostly" not in kept else kept


def hop_words(hop: Hop) -> str:
    """When an addition of hops goes in, in few words."""

    def said(value: Value) -> str:
        return amount_of(value.number, value.unit).metric

    match hop.use:
        case FirstWort():
            return "first wort"
        case BeforePackaging(days):
            return f"dry {said(days)}"
        case BeforeTheEnd(minutes):
            return f"boil {said(minutes)}" if minutes.number else hop.called or "as the heat goes off"
        case Stand(minutes, start):
            return f"{hop.called or 'stand'} {said(minutes)} at {said(start)}"
        case Stage():
            return hop.called


def grist_words(grist: Grist) -> str:
    """What a list of all that brings extract is called: only grain that is mashed makes a grist."""
    if grist.mashed is not None:
        return "The grist"
    return "Extract and grain" if grist.malts else "Extract and sugar"


def share_words(grist: Grist) -> str:
    """How its shares are compared: malt extract as the grain that it stands for."""
    by = "as grain" if any(line.sugar.from_malt for line in grist.sugars) else "by weight"
    return f"{by}, fruit by its sugar" if any(line.sugar.flesh for line in grist.sugars) else by


@dataclass(frozen=True, slots=True)
class InStyle:
    """Where a figure stands in its style, in words, and the style's own span."""

    words: str
    span: Amount


def in_style(figure: str, value: Value, style: Style | None) -> InStyle | None:
    """Where a figure stands in its style; nothing where the style says nothing of it.

    ``figure`` is its id; ABV of a style is per cent by volume, as the plan's.
    """
    span = style_spans(style).get(figure) if style else None
    if style is None or span is None:
        return None
    ends = [amount_of(end, value.unit).metric for end in span]
    return InStyle(f"{where_in(value, span)} {style.name}", Amount(_dashed(*ends)))


def style_spans(style: Style) -> Mapping[str, tuple[float, float]]:
    """The spans of a style by the ids of the figures."""
    return {
        "original-gravity": style.original_gravity,
        "final-gravity": style.final_gravity,
        "alcohol-by-volume": style.strength,
        "bitterness": style.bitterness,
        "colour": style.colour,
    }


def where_in(value: Value, span: tuple[float, float]) -> str:
    """Where a figure stands to a span, in a word; what reads like an end of it is within."""
    low, high = span
    read = amount_of(value.number, value.unit)
    if low <= value.number <= high or read in (amount_of(low, value.unit), amount_of(high, value.unit)):
        return "within"
    return "below" if value.number < low else "above"


def ready_words(days: float) -> str:
    """A wait as one says it: weeks at first, months when it is long.

    >>> ready_words(24), ready_words(140)
    ('three and a half weeks', 'five months')
    """
    if days < MONTHS_FROM_DAYS:
        halves = max(round(days / 3.5), 2)
        half = " and a half" if halves % 2 else ""
        return f"{counted(halves // 2)}{half} {'week' if halves == 2 else 'weeks'}"
    return f"{counted(round(days / DAYS_IN_A_MONTH))} months"


def counted(number: int) -> str:
    """A small number in words."""
    return NUMBERS[number - 1] if number <= len(NUMBERS) else "many"


def capital(words: str) -> str:
    """The words with a capital in front.

    >>> capital("boil-off")
    'Boil-off'
    """
    return words[:1].upper() + words[1:]


def _upto(number: float, table: tuple[tuple[float, str], ...]) -> str:
    return next(words for end, words in table if number <= end)


def _dashed(low: str, high: str) -> str:
    """A span as it is printed, its unit once: `25–40 IBU`."""
    (first, _, unit), (_, _, other) = low.partition("\u00a0"), high.partition("\u00a0")
    return f"{first}–{high}" if unit == other else f"{low} – {high}"
