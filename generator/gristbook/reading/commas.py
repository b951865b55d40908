"""The commas of a line that its author left out: what runs on without one is parted where its parts say something."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from gristbook.problems import Problems
from gristbook.reading.patterns import compiled, fits
from gristbook.reading.quantity import NUMBER
from gristbook.reading.spare import COUNTS, with_spare_words
from gristbook.reading.tree import Text

if TYPE_CHECKING:
    from gristbook.reading.line import Property


_ASIDE = r"\((?P<inside>[^()]+)\)"
_TAIL = re.compile(
    r"\s+(?=(?:according|after|as|at|because|before|bought|but|during|for|from|grown|if|in|into|left|not|on|or|per|plus"
    r"|saved|since|that|till|to|unless|until|via|when|which|with|/)\s+\S|and\s+\d)",
    re.I,
)
"""Before words that tell more of what stands there, or what may be taken in its place."""
_WHY = re.compile(r"(?:although|because|but|if|since|so|though|which|who)\s", re.IGNORECASE)
"""What begins a remark, whatever words are in it."""
INSTEAD = (
    r"(?:alternatively|or else|otherwise|failing (?:that|those|which)|if (?:you|I|we) (?:can't|cannot|can not) get)\b"
)
"""What begins something else in place of the line, which runs on to its end."""


def property_of(piece: Text, properties: tuple[Property, ...]) -> tuple[str, Text] | None:
    """Which property a piece is, and the text that says it; `None` where it is none."""
    for candidate in properties:
        if match := compiled(candidate.pattern).fullmatch(piece.value):
            told = candidate.told(piece, match) if candidate.unit else piece.part(*match.span("value"))
            return candidate.key, told
    return None


def knows(words: str, properties: tuple[Property, ...]) -> bool:
    """Whether words are one of the properties."""
    return any(known.found_in(words) for known in properties)


def without_its_end(
    name: Text, properties: tuple[Property, ...], is_name: Callable[[str], bool]
) -> tuple[Text, list[Text]]:
    """A name, and the parts of its line that run on from it, or up to it, without a comma."""
    if property_of(name, properties):
        return name, []
    bare, asides = without_asides(name)
    if asides and not is_name(name.value):  # "calcium chloride 4 g (flakes)"
        bare, ends = without_its_end(bare, properties, is_name)
        if is_name(bare.value):
            return bare, [*ends, *asides]
    tail = _TAIL.search(name.value)
    if tail and is_name(name.value[: tail.start()]):
        return name.part(0, tail.start()), [name.part(tail.end())]
    for blank in re.finditer(r"\s+(?![^()]*\))", name.value):
        if ends := parted_by_sense(name.part(blank.end()), properties):
            bare, heads = _without_its_head(name.part(0, blank.start()), properties, is_name)
            return bare, [*heads, *ends]
    if tail:
        bare, ends = without_its_end(name.part(0, tail.start()), properties, is_name)
        if is_name(bare.value):
            return bare, [*ends, name.part(tail.end())]
    return _without_its_head(name, properties, is_name)


def _without_its_head(
    name: Text, properties: tuple[Property, ...], is_name: Callable[[str], bool]
) -> tuple[Text, list[Text]]:
    """A name, the part of its line that stands before it, and what stands in brackets in it."""
    if is_name(name.value):
        return name, []
    bare, asides = without_asides(name)
    for blank in reversed([] if is_name(bare.value) else [*re.finditer(r"\s+(?:of\s+)?", bare.value)]):
        if property_of(head := bare.part(0, blank.start()), properties):
            return bare.part(blank.end()), [head, *asides]
    return bare, asides


def without_asides(name: Text) -> tuple[Text, list[Text]]:
    """A name, and what stands in brackets in it."""
    asides = [*re.finditer(_ASIDE, name.value)]
    bare = " ".join(re.sub(_ASIDE, " ", name.value).split())
    if not asides or not bare:
        return name, []
    kept = name.part(0, asides[0].start())
    inside = [part for aside in asides for part in name.part(*aside.span("inside")).split(",")]
    return kept if kept.value == bare else Text(bare, name.place, exact=False), inside


def named_behind(
    name: Text,
    pieces: list[Text],
    properties: tuple[Property, ...],
    is_name: Callable[[str], bool],
    *,
    counted: bool,
) -> tuple[Text, list[Text]]:
    """The name of a line and its pieces, where one of them is the name and what stands in its place a property.

    So "150 mL slurry from the last bitter, english ale"; where no amount ``counted`` it, any words, as in "clean, well
    settling German ale yeast".
    """
    own = next((piece for piece in pieces if is_name(piece.value)), None)
    if own is None and not counted:  # "clean, well settling German ale yeast"
        strange = [it for it in pieces if not property_of(it, properties)]
        ends = ((it, it.part(blank.end())) for it in strange for blank in re.finditer(r"\s+", it.value))
        whole, own = next(((it, end) for it, end in ends if is_name(end.value)), (None, None))
        if whole and own:
            head = whole.part(0, len(whole.value) - len(own.value))
            pieces = [it for piece in pieces for it in ([head, own] if piece is whole else [piece])]
    end = tail.start() if (tail := _TAIL.search(name.value)) else len(name.value)
    if own is None or (counted and property_of(name.part(0, end), properties) is None):
        return name, pieces
    tails = [name.part(end)] if tail else []
    return own, [name.part(0, end), *tails, *(piece for piece in pieces if piece is not own)]


def behind_what_leads(pieces: list[Text], properties: tuple[Property, ...], amount: str) -> list[Text]:
    """The pieces of a line that says its moment first ("60 min: 30 g Perle"), with that behind the name.

    What leads ends before an ``amount``, a pattern, and is none itself.
    """
    first = pieces[0]
    if compiled(amount).match(first.value):
        return pieces
    for at in re.finditer(rf"(?:\s*[:–-]\s+|\s+|$)(?={amount}|$)", first.value, re.IGNORECASE):
        lead, rest = first.part(0, at.start()), [first.part(at.end())] if at.end() < len(first.value) else []
        clear = at[0].strip() or not re.fullmatch(NUMBER, lead.value)  # "1 1/2 oz" begins with no minute
        if (rest or len(pieces) > 1) and clear and _says_when(lead, properties, amount):
            return [*rest, *pieces[1:], lead]
    return pieces


def _says_when(lead: Text, properties: tuple[Property, ...], amount: str) -> bool:
    no_amount = not re.match(rf"(?:{amount}|{NUMBER}\s*%)", lead.value, re.IGNORECASE)
    return no_amount and bool(parted_by_sense(lead, properties))


def parted_by_sense(piece: Text, properties: tuple[Property, ...]) -> list[Text]:
    """A piece as the parts that it would be with the commas that it lacks; none where commas would not help."""
    if property_of(piece, properties):
        return [piece]
    if aside := re.match(_ASIDE + r"\s*", piece.value):
        inside, behind = piece.part(*aside.span("inside")).split(","), piece.part(aside.end())
        rest = parted_by_sense(behind, properties) if behind.value else []
        said = any(property_of(part, properties) for part in inside)
        return [*inside, *rest] if said and bool(rest) == bool(behind.value) else []
    for blank in re.finditer(r"\s+", piece.value):
        head = piece.part(0, blank.start())
        if property_of(head, properties) and (rest := parted_by_sense(piece.part(blank.end()), properties)):
            return [head, *rest]
    return []


def _tailed(piece: Text, properties: tuple[Property, ...]) -> list[Text]:
    """A piece as the parts that it would be without what tells more at its end; none where there is none."""
    tail = _TAIL.search(piece.value)
    parts = parted_by_sense(piece.part(0, tail.start()), properties) if tail else []
    return [*parts, piece.part(tail.end())] if tail and parts else []


def lack_comma(before: Text, part: Text, problems: Problems, whole: str) -> None:
    """Warn that a comma is missing between two parts: of all those of a file, once."""
    what, expected = f'a comma is missing after "{before.value}"', f"{before.value}, {part.value}"
    problems.warning(part.place, what, within=whole, expected=expected, once="comma")


def spared(piece: Text, properties: tuple[Property, ...]) -> list[Text]:
    """A piece as the parts that it would be with its spare words aside."""
    return with_spare_words(piece, lambda words: knows(words, properties))


def miss_commas(parts: list[Text], problems: Problems, whole: str, after: str = NUMBER) -> None:
    """Warn of each comma that is missing between two numbers, or ``after`` what this fits; no words need one."""
    for before, part in pairwise(parts):
        if "(" not in whole and re.match(NUMBER, part.value) and re.match(after, before.value):
            lack_comma(before, part, problems, whole)


def with_commas(pieces: list[Text], properties: tuple[Property, ...], problems: Problems, whole: str) -> Iterator[Text]:
    """The pieces of a line, those that lack a comma parted, with a warning."""
    for piece in pieces:
        if fits(f"{INSTEAD}.*", piece.value) or (_WHY.match(piece.value) and not COUNTS.search(piece.value)):
            yield piece
            continue
        parts = parted_by_sense(piece, properties)
        miss_commas(parts, problems, whole)
        if parts:
            yield from parts
        elif not any(known.key == "note" for known in properties):
            yield piece
        else:
            whole_aside = re.fullmatch(_ASIDE, piece.value)
            bare, asides = (piece.part(*whole_aside.span("inside")), []) if whole_aside else without_asides(piece)
            spare = parted_by_sense(bare, properties) or spared(bare, properties) or _tailed(bare, properties)
            yield from (*(spare or [bare]), *asides)
