"""What an ingredient brings that some must not drink: its line's own word, or else the pantry's."""

import re

from gristbook.model.brings import NOTHING, Brings
from gristbook.pantry.allergens import allergens_in
from gristbook.pantry.pantry import Pantry
from gristbook.pantry.records import Extract, Fining, Fruit, Malt, Record, Salt, Sugar
from gristbook.reading.line import Line
from gristbook.text.values import Desk

NONE = "none"


def brings_of(record: Record, pantry: Pantry, *, known: bool = True) -> Brings:
    """What the pantry says of one of its own; a malt brings its cereal, hops and yeast bring nothing.

    Of what no pantry has, nobody is ``known`` to have asked whether that is all.
    """
    match record:
        case Malt():
            return Brings(_named(f"{record.cereal} {'' if known else record.name}", pantry), open=not known)
        case Extract():  # those of wheat or rye are mashed with barley malt, for its enzymes
            return Brings(_named(f"barley {record.cereal} {record.name}", pantry), open=not known)
        case Sugar() | Fruit() | Fining() | Salt():
            return _stated(record.allergen, record.name, pantry)
    return NOTHING


def brings_by_name(name: str, pantry: Pantry) -> Brings:
    """What a name says by itself of a thing that the pantry does not know; there may be more in it."""
    return Brings(_named(name, pantry))


def on_line(line: Line, known: Brings, desk: Desk) -> Brings:
    """What the line says, or else what is ``known``; a word that is no allergen files its problem.

    What the pantry or its name says to be in a thing stays, for no line can take the milk out of lactose.
    """
    text = line.get("allergens")
    if text is None:
        return known
    shelf = desk.pantry.allergens
    found = {name for name in known.names if allergens_in(name, shelf)[1]}
    if text.word == NONE and found:
        what = f"{' and '.join(sorted(found))} is in {line.name.value}, whatever the line says"
        line.warning(what, "a word on what it is instead, under pantry", at=text)
    for part in [] if text.word == NONE else text.split(r",|\band\b"):
        names, whole = allergens_in(part.value, shelf)
        found |= names
        if not whole:
            known_words = dict.fromkeys(it.name.partition(" (")[0] for it in shelf.records)
            what, expected = f'no allergen is called "{part.value}"', f"none, or some of {', '.join(known_words)}"
            desk.problems.unknown(part.place, what, part.value, known_words, within=line.whole, expected=expected)
    return Brings(tuple(sorted(found)), open=False, said=True)


def _stated(words: str, name: str, pantry: Pantry) -> Brings:
    """A record's own word on it, kept as it stands where it is no plain list of allergens."""
    if not words:
        return brings_by_name(name, pantry)
    if words.casefold() == NONE:
        return NOTHING
    found = set[str]()
    for part in re.split(r"\s*,\s*", words):
        names, whole = allergens_in(part, pantry.allergens)
        found |= names if whole else {part}
    return Brings(tuple(sorted(found)), open=False)


def _named(words: str, pantry: Pantry) -> tuple[str, ...]:
    return tuple(sorted(allergens_in(words, pantry.allergens)[0]))
