"""Lines that say in another order what a line of their section says: rows of what is written, and what that means."""

from __future__ import annotations

from collections.abc import Mapping

from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Text
from gristbook.reading.units import spellings
from gristbook.text.parts.common import HEAT, MINUTES
from gristbook.text.parts.water import IONS

ISH = ("psi", "bar", "celsius", "fahrenheit", "minute", "litre", "us_gallon", "gram", "kilogram", "pound", "ounce")
_HEAT, _MINUTES = (it.replace("?P<value>", "?:") for it in (HEAT, MINUTES))
_ABOUT = r"(?:about|approx(?:\.|imately)?|ca\.?|~)?\s*"
_SPOON = rf"(?:{NUMBER}|an?|half a)\s*(?:level |heaped )?(?:tsp|tbsp|teaspoon|tablespoon|cup|mug|handful)s?\.?"
_WEIGHTS = spellings("gram", "kilogram", "ounce", "pound")

_BY_THE_SPOON = (
    rf"(?P<spoon>{_SPOON})\s+(?:of\s+)?(?P<name>[^(),\d]*?)\s*\({_ABOUT}(?P<grams>{NUMBER}\s*{_WEIGHTS})\)(?P<rest>.*)",
    "{grams} {name}{rest}, note: {spoon}",
)

_ION = rf"(?:{'|'.join(words for _, words, _ in IONS)})"

ROWS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "water": (_BY_THE_SPOON, (rf"(?P<whole>{_ION}[ :=]*{NUMBER}.*)", "tap, {whole}")),
    "carbonation": (
        (
            rf"(?P<before>.*?)(?P<dose>{NUMBER}\s*g) (?:of )?(?P<sugar>[^\d,;()]+?)\s*(?:per\b|/)\s*"
            r"(?:litre|liter|l)\b(?P<rest>.*)",
            "{before}{dose}/L {sugar}{rest}",
        ),
        (
            rf"(?P<before>(?:.*\W)?{NUMBER}\s*)(?:oz|ounce)(?P<rest>\.? (?:(?:beer|glass) )?bottle.*)",
            "{before}fl oz{rest}",
        ),
    ),
    "finings and spices": (
        (
            rf"(?P<count>{NUMBER}|{IN_WORDS}) (?:tea)?bags? (?:of )?(?P<name>[^\W\d][^,(]* tea|tea)(?P<rest>\W.*)?",
            "{count} teabags {name}{rest}",
        ),
        (
            rf"(?P<count>{NUMBER}|{IN_WORDS}) (?P<name>(?:[^\W\d]+ )*tea)[ -]?bags?(?P<rest>\W.*)?",
            "{count} teabags {name}{rest}",
        ),
    ),
    "yeast": (
        (
            rf"(?:the |a |one )*(?P<much>{NUMBER}\s*g)?\s*(?:(?:dried|kit|yeast) )*(?:packet|sachet|pack|yeast)"
            r" (?:that (?:came|comes) )?(?:from )?(?:with|under|beneath) the (?:lid|kit|tin|can)(?P<rest>.*)",
            "{much} kit yeast, dried{rest}",
        ),
    ),
    "malts": (
        _BY_THE_SPOON,
        (
            rf"(?P<first>.+?),?\s+(?P<how>{_HEAT},? (?:for )?{_MINUTES}|{_MINUTES},? (?:at |@ ?)?{_HEAT}),?\s*"
            "(?:a )?steep(?:ed)?(?P<rest>.*)",
            "{first}, steep {how}{rest}",
        ),
    ),
}
"""By section, a pattern of what may be written, and the line that its groups make; what is not said is left out."""

ANYWHERE = ((rf"(?P<before>.*{NUMBER}(?:\s*(?:{spellings(*ISH)}))?)[ -]?ish\b(?P<rest>.*)", "{before}{rest}"),)
"""The same of every section: "11 psi-ish"."""


def in_the_usual_order(text: Text, section: str) -> Text:
    """A line as its section has it, from one that says the same in another order; any other as it is.

    >>> from gristbook.problems import Place
    >>> in_the_usual_order(Text("1 tsp gypsum (5 g) in the mash", Place("a.md")), "water").value
    '5 g gypsum in the mash, note: 1 tsp'
    """
    for pattern, says in (*ROWS.get(section, ()), *ANYWHERE):
        if match := fits(pattern, text.value):
            told = says.format(**{key: it or "" for key, it in match.groupdict().items()})
            return Text(" ".join(told.split()), text.place, exact=False)
    return text
