"""What a caution is."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.targets.conventions import PRACTICE
from gristbook.targets.method.step import Kind, Rank, Sentence


@dataclass(frozen=True, slots=True)
class Caution:
    """Words, the kinds of step where they stand, and the condition by its name.

    One that is for ``every`` such step is said again at each; another only the first time that a brew comes to it.
    ``short`` is what a card says of it, of those few that can maim or kill. ``aid`` is what to do if it happens, by its
    name in `AID`. Where the words are about a figure, it stands in the ``lead`` that they follow. ``rank`` says how
    loudly a page for the day says it.
    """

    words: str
    kinds: tuple[Kind, ...]
    when: str = "always"
    source: str = PRACTICE
    every: bool = False
    short: str = ""
    lead: Sentence = ()
    aid: str = ""
    rank: Rank = "step"

    @property
    def sentence(self) -> Sentence:
        """The words, with what leads up to them in front."""
        return (*self.lead, self.words)
