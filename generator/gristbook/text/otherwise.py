"""Lines that say in another order what a line of their section says: rows of what is written, and what that means."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER
from gristbook.reading.tree import Text
from gristbook.reading.units import spellings
from gristbook.text.parts.common import DAYS, HEAT, MINUTES, VOLUMES
from gristbook.text.parts.steps import SPARGE, WARMTH

_UNNAMED = re.sub(r"\?P<\w+>", "?:", SPARGE)
ISH = ("psi", "bar", "celsius", "fahrenheit", "minute", "litre", "us_gallon", "gram", "kilogram", "pound", "ounce")
_HEAT, _MINUTES = (it.replace("?P<value>", "?:") for it in (HEAT, MINUTES))
_ABOUT = r"(?:about|approx(?:\.|imately)?|ca\.?|~)?\s*"
_SPOON = rf"(?:{NUMBER}|an?|half a)\s*(?:level |heaped )?(?:tsp|tbsp|teaspoon|tablespoon)s?\.?"
_WAY, _SPARGED, _MUCH = (
    "(?:batch|fly|continuous)[ -]",
    "(?:sparg|rins|dunk)(?:e|ed|ing)?\\b",
    rf"{NUMBER}\s*{VOLUMES}\b",
)
_TO_COME_TO = r"\sto\s(?:get|give|make|reach|collect|hit|end|have|fill)\b"
_OR_ELSE = (
    r"(?P<first>.+?)\s*[,;(–-]\s*(?P<note>(?:alternatively|or else|otherwise|failing (?:that|those)"
    r"|if (?:you|I) (?:can't|cannot) get)\b.+)"
)

ROWS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "water": (
        (
            rf"(?P<spoon>{_SPOON})\s+(?:of\s+)?(?P<name>[^(),\d]+?)\s*\({_ABOUT}(?P<grams>{NUMBER}\s*g)\)(?P<rest>.*)",
            "{grams} {name}{rest}, note: {spoon}",
        ),
    ),
    "carbonation": (
        (
            rf"(?P<before>.*?)(?P<dose>{NUMBER}\s*g) (?:of )?(?P<sugar>[^\d,;()]+?) ?(?:per|/) ?"
            r"(?:litre|liter|l)\b(?P<rest>.*)",
            "{before}{dose}/L {sugar}{rest}",
        ),
        (
            rf"(?P<before>.*?)(?P<dose>{NUMBER}\s*g) (?:of )?(?P<sugar>[^\d,;()]+?) (?:on|in|into|to|for|per) "
            rf"(?:each |every |a )?bottle of (?P<size>{_MUCH})(?P<rest>.*)",
            "{before}{dose} {sugar} per {size} bottle{rest}",
        ),
        (
            rf"(?P<before>.*\d.*?),? (?:(?:for|over) )?(?P<note>{DAYS.replace('?P<value>', '?:')})",
            "{before}, note: {note}",
        ),
    ),
    "mash": (
        (
            rf"(?P<way>{_WAY})?(?P<sparge>{_SPARGED}),? (?P<volume>{_MUCH}),? (?P<heat>{WARMTH})",
            "{way}sparge with {volume} at {heat}",
        ),
        (
            rf"(?!{_UNNAMED}$)(?P<way>{_WAY})?{_SPARGED}"
            rf"(?:(?=(?:(?!{_TO_COME_TO}).)*?(?<![\d.])(?P<volume>{_MUCH})))?"
            rf"(?:(?=.*?(?<![\d.])(?P<heat>{WARMTH})))?.*\d.*",
            "{way}sparge with {volume} at {heat}, note: {whole}",
        ),
    ),
    "malts": (
        (
            rf"(?P<first>.+?),?\s+(?P<how>{_HEAT},? (?:for )?{_MINUTES}|{_MINUTES},? (?:at |@ ?)?{_HEAT}),?\s*"
            "(?:a )?steep(?:ed)?(?P<rest>.*)",
            "{first}, steep {how}{rest}",
        ),
        (_OR_ELSE, "{first}, note: {note}"),
    ),
    "extracts": (
        (r"(?P<first>[^,]+), (?P<note>liquid|syrup|dry|dried|powder)(?P<rest>,.*)?", "{first}{rest}, note: {note}"),
        (_OR_ELSE, "{first}, note: {note}"),
    ),
    **dict.fromkeys(("sugars", "hops", "yeast"), ((_OR_ELSE, "{first}, note: {note}"),)),
}
"""By section, a pattern of what may be written, and the line that its groups make; what is not said is left out."""

ANYWHERE = ((rf"(?P<before>.*{NUMBER}(?:\s*(?:{spellings(*ISH)}))?)[ -]?ish\b(?P<rest>.*)", "{before}{rest}"),)
"""The same of every section: "11 psi-ish"."""

_LED = re.compile(r" (?:with|at)(?= at|,|$)")


def in_the_usual_order(text: Text, section: str) -> Text:
    """A line as its section has it, from one that says the same in another order; any other as it is.

    >>> from gristbook.problems import Place
    >>> in_the_usual_order(Text("1 tsp gypsum (5 g) in the mash", Place("a.md")), "water").value
    '5 g gypsum in the mash, note: 1 tsp'
    """
    for pattern, says in (*ROWS.get(section, ()), *ANYWHERE):
        if match := fits(pattern, text.value):
            told = says.format(whole=text.value, **{key: it or "" for key, it in match.groupdict().items()})
            return Text(_LED.sub("", " ".join(told.split())), text.place, exact=False)
    return text
