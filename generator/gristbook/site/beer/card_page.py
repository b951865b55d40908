"""What a card is given: the whole recipe on one side of A5 or of half a US letter, with blanks to write in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.doing import doing_of
from gristbook.site.beer.ingredients import Ingredients, ingredients
from gristbook.site.figures import Sentence
from gristbook.site.prose import line
from gristbook.targets.advice.cautions import in_short

MEASURED = (
    ("strike-temperature", "Strike water"),
    ("gravity-before-the-boil", "Gravity before the boil"),
    ("boil-volume", "Wort before the boil, cool"),
    ("volume-at-the-end-of-the-boil", "Wort after the boil, cool"),
    ("original-gravity", "Original gravity"),
    ("into-the-fermenter", "Into the fermenter"),
    ("final-gravity", "Final gravity"),
    ("beer-to-package", "Packaged"),
)
"""What a brewer measures, by the figure it is held against."""


LINES: Mapping[str, tuple[str, ...]] = {
    "Mash": ("heat", "mash", "drain"),
    "Sparge": ("sparge",),
    "Steep": ("steep",),
    "Boil": ("boil", "cool"),
}
"""The kinds of step that a line of the card is about, where something is to be minded."""

FULL = 19
"""From so many lines on, a card has no room for what an author calls things."""

FILLS = ((14, "roomy"), (22, "usual"), (28, "full"))
"""Up to how many lines, rows of packets among them, a card is set in which size of type."""


@dataclass(frozen=True, slots=True)
class CardPage:
    """A recipe as a card tells it; ``made`` is what its edition is.

    ``care`` has by its word what to mind at a line of what is done: what can maim or kill, and no more. ``blanks`` are
    the figures with room beside them to write what was measured.
    """

    brew: Brew
    title: Markup
    band: Band
    makes: Sentence
    ingredients: Ingredients
    doing: tuple[tuple[str, Sentence], ...]
    blanks: tuple[tuple[str, Value], ...]
    beer: Sentence
    care: Mapping[str, tuple[str, ...]]
    made: str

    paper: ClassVar[str] = "a5"
    """What templates ask for that were written when a card was for one paper only."""

    @property
    def dense(self) -> bool:
        """Whether there is so much on it that only the pantry's names have room."""
        return _lines(self) >= FULL

    @property
    def fill(self) -> str:
        """How much there is on it, by which its type is as large as fits."""
        lines = _lines(self) + len(self.brew.packets)
        return next((words for most, words in FILLS if lines <= most), "crowded")

    @property
    def most_packets(self) -> int:
        """How many packets its longest row has."""
        return max((len(row.packets) for row in self.brew.packets), default=0)


def _lines(page: CardPage) -> int:
    """How many things to weigh and to do stand on a card."""
    goes = page.ingredients
    weighed = (goes.grist, goes.kits, goes.hops, goes.yeasts, goes.salts, goes.extras)
    return sum(map(len, weighed)) + len(page.doing)


def card_page(brew: Brew, brewed_from: str = "", made: str = "") -> CardPage:
    """The card of one brew; ``brewed_from`` says what is not as it was written, ``made`` what its edition is."""
    plan, figures, sheet = brew.plan, brew.plan.figures, brew.plan.sheet
    doing = tuple(doing_of(plan))
    return CardPage(
        brew=brew,
        title=line(plan.recipe.title),
        band=band(figures.colour.srm.number),
        makes=(figures.volumes.batch, f", in the {plan.brewhouse.name} brewhouse{brewed_from}"),
        ingredients=ingredients(plan),
        doing=doing,
        blanks=tuple((words, sheet[figure]) for figure, words in MEASURED if figure in sheet),
        beer=(figures.fermentation.abv, ", ", figures.bitterness.total, ", ", figures.colour.srm),
        care=_care(brew, [word for word, _ in doing]),
        made=made or f"as written, in the {plan.brewhouse.name} brewhouse",
    )


def _care(brew: Brew, doing: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """What is to be minded at each line, each once; what belongs to a line that is not there stands at the last."""
    there, said = {step.kind for step in brew.steps}, set[str]()
    found: dict[str, tuple[str, ...]] = {}
    for word in doing:
        kinds = there if word == doing[-1] else there.intersection(LINES.get(word, ()))
        found[word] = tuple(words for words in in_short(kinds, brew.plan) if words not in said)
        said.update(found[word])
    return found
