"""What editions swap in: the malt extracts of our own pantry, and the base malt and mash of an extract beer made whole.

They are read from lines like any other, so that their numbers know where they come from. An author's own pantry is left
out: nothing that it says can spoil them.
"""

from functools import cache

from gristbook.model.recipe import Malt, Sugar
from gristbook.model.steps import MashStep
from gristbook.problems import Place
from gristbook.reading.tree import Text
from gristbook.text.brew import Brew
from gristbook.text.grist import read_extract, read_malt, read_sugar
from gristbook.text.mashing import read_mash
from gristbook.text.values import our_desk, unread

_BREW = Brew(60.0, unread("L"), ())


@cache
def malt_extracts() -> dict[str, Sugar]:
    """Every malt extract of the pantry, and maltodextrin, by name, as a line of a kilogram: editions weigh it anew."""
    desk = our_desk()
    lines = {extract.name: f"1 kg {extract.name.replace(',', '')}" for extract in desk.pantry.extracts.records}
    found = {name: read_extract(_line(words), _BREW, desk)[0] for name, words in lines.items()}
    return {**found, "Maltodextrin": read_sugar(_line("1 kg maltodextrin"), _BREW, desk)}


@cache
def base_malt() -> Malt:
    """The malt that an extract beer is mashed from instead."""
    return read_malt(_line("1 kg pale ale malt"), our_desk())


@cache
def base_mash() -> MashStep:
    """The mash that an extract beer gets instead."""
    return read_mash([_line("67 °C, 60 min")], our_desk()).rests[0]


def _line(words: str) -> Text:
    return Text(words, Place("an edition"), exact=False)
