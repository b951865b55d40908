"""What the book learns from its batches: the means of its brewhouses and of the yeasts in them, and how sure it is.

A figure is learned from the brewhouse's own setting and from what each brew showed, through `equations.learning`, so
that its working leads to the book's line and to every batch's. Its doubts become one, under the setting's own name:
how far the next brew may lie from it. Two brews' readings are taken for independent of each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import fsum, hypot, sqrt

from gristbook.equations import learning
from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.yeast import Yeast
from gristbook.problems import Place
from gristbook.sheet.doubts import Doubts, Sums, added_up, read_back, whole_of
from gristbook.sheet.origin import By, Given, Taught
from gristbook.sheet.value import Operand, Value, apply, given
from gristbook.targets.batches.measured import HYDROMETER
from gristbook.targets.batches.results import BatchFigures, Lesson, Subject
from gristbook.targets.conventions import BREW_TO_BREW, BREW_TO_BREW_SHARE, PRACTICE
from gristbook.targets.wort.efficiency import by_conversion
from gristbook.targets.wort.volumes import marks_of

FIELDS: Mapping[Subject, str] = {
    "conversion": "conversion",
    "boil-off": "boil_off",
    "left in kettle": "left_in_kettle",
    "left in fermenter": "left_in_fermenter",
}
"""Where in a brewhouse a figure stands. A yeast's attenuation stands in no brewhouse, but is learned for each."""

LEAST_UNSURE = sqrt(0.5)
"""A brewhouse's own mean is taken to hide at least half of what its setting leaves open (as a variance)."""
MILDLY_ODD = 0.999
"""Below this weight a reading is said to have counted for less."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A reading of one brew and how much it counted, 0 to 1; ``why`` where that was not wholly, "" where it was."""

    lesson: Lesson
    weight: Value
    why: str


@dataclass(frozen=True, slots=True)
class Learned:
    """A figure as the book has it (``setting``), and as its brews so far have it.

    ``value`` is that of the next brew, with its nine-in-ten range, and ``spread`` one standard deviation of that;
    ``own`` is the same figure with the range of the brewhouse's own mean. ``used`` says whether plans go by it;
    ``brews`` how many readings counted.
    """

    subject: Subject
    brewhouse: str
    yeast: str
    setting: Value
    value: Value
    spread: Value
    own: Value
    readings: tuple[Weighed, ...]
    used: bool

    @property
    def brews(self) -> int:
        """How many readings counted at all."""
        return sum(weighed.weight.number > 0 for weighed in self.readings)


@dataclass(frozen=True, slots=True)
class Lessons:
    """All that a book has learned, by brewhouse and subject."""

    learned: tuple[Learned, ...]

    def of(self, brewhouse: str, subject: Subject, yeast: str = "") -> Learned | None:
        """What was learned about one thing, `None` where that is nothing."""
        wanted = (brewhouse, subject, yeast)
        return next((it for it in self.learned if (it.brewhouse, it.subject, it.yeast) == wanted), None)


NO_LESSONS = Lessons(())


def learn(book: Book, batches: Iterable[BatchFigures], yeasts: Iterable[Yeast]) -> Lessons:
    """What the batches teach of the brewhouses that the book has today, and of ``yeasts``, those of its recipes."""
    heard: dict[tuple[str, Subject, str], list[Lesson]] = {}
    for batch in batches:
        for lesson in batch.lessons:
            heard.setdefault((lesson.brewhouse, lesson.subject, family(lesson.yeast)), []).append(lesson)
    families = {family(yeast.name): yeast for yeast in yeasts if unstated(yeast)}
    found = []
    for (name, subject, key), lessons in sorted(heard.items()):
        brewhouse, yeast = book.brewhouses.get(name), families.get(key)
        setting = yeast.attenuation if yeast else _setting(brewhouse, subject) if not key else None
        if brewhouse is not None and setting is not None:
            used = FIELDS.get(subject, "attenuation") in brewhouse.learns
            found.append(learned(setting, lessons, yeast=yeast.name if yeast else "", used=used))
    return Lessons(tuple(it for it in found if it is not None))


def taught(brewhouse: Brewhouse, lessons: Lessons) -> Brewhouse:
    """The brewhouse with what was learned in the place of each setting that it lets its batches teach."""
    changes: dict[str, Value | None] = {}
    for subject, field in FIELDS.items():
        found = lessons.of(brewhouse.name, subject)
        if found is not None and found.used:
            changes[field] = found.value
    if "conversion" in changes:
        changes["efficiency"] = None  # what was stated of an ordinary grist has become a conversion, and been taught
    return replace(brewhouse, **changes)  # type: ignore[arg-type]  # fields that hold values


def taught_book(book: Book, lessons: Lessons) -> Book:
    """The book with its brewhouses taught, and its recipes' yeasts by what they did in those."""
    brewhouses = {name: taught(brewhouse, lessons) for name, brewhouse in book.brewhouses.items()}
    recipes = tuple(
        replace(recipe, yeasts=tuple(_taught_yeast(yeast, recipe.brewhouse, lessons) for yeast in recipe.yeasts))
        for recipe in book.recipes
    )
    return replace(book, brewhouses=brewhouses, recipes=recipes)


def _taught_yeast(yeast: Yeast, brewhouse: str, lessons: Lessons) -> Yeast:
    """A yeast whose line states no attenuation, with what its family has shown in this brewhouse."""
    found = lessons.of(brewhouse, "attenuation", yeast.name)
    if found is None or not found.used or not unstated(yeast):
        return yeast
    return replace(yeast, attenuation=found.value)


def family(name: str) -> str:
    """A yeast's family whatever its spelling, with and without the word yeast.

    >>> family("english ale yeast, attenuative") == family("English ale, attenuative")
    True
    """
    return " ".join(word for word in name.casefold().replace(",", " ").split() if word != "yeast")


def unstated(yeast: Yeast) -> bool:
    """Whether its attenuation is that of its family in the pantry, and not what its line says."""
    known = yeast.attenuation.origin
    return not yeast.assumed and isinstance(known, Given) and known.by is By.PANTRY


def _setting(brewhouse: Brewhouse | None, subject: Subject) -> Value | None:
    """What the book says before any brew; the conversion may follow from what it says of an ordinary grist."""
    if brewhouse is None:
        return None
    value: Value = getattr(by_conversion(brewhouse), FIELDS[subject])
    return None if value.certain else value


def learned(setting: Value, lessons: Iterable[Lesson], *, yeast: str = "", used: bool) -> Learned | None:
    """One figure learned; `None` where no reading counts."""
    heard = tuple(lessons)
    counted = [lesson for lesson in heard if _counts(lesson)]
    if not counted:
        return None
    first = counted[0]
    found = _Found.of(setting, _brew_to_brew(first.subject, setting), counted)
    return Learned(
        first.subject,
        first.brewhouse,
        yeast,
        setting,
        found.taught(found.next_brew.number**2),
        found.next_brew,
        found.taught(found.own_variance),
        tuple(_weighed(lesson, found.middle, found.brew_sd) for lesson in heard),
        used,
    )


def so_far(found: Learned, heard: int) -> Value:
    """What its first readings alone, so many of them, make of a figure: the setting where none of those counts."""
    counted = [weighed.lesson for weighed in found.readings[:heard] if _counts(weighed.lesson)]
    if not counted:
        return found.setting
    first = _Found.of(found.setting, _brew_to_brew(found.subject, found.setting), counted)
    return first.taught(first.next_brew.number**2)


def _counts(lesson: Lesson) -> bool:
    return not lesson.aside and not lesson.value.certain


@dataclass(frozen=True, slots=True)
class _Found:
    """The brewhouse's own mean, one standard deviation of the next brew about it, and what its instruments hide.

    ``kept`` is the share of the mean that is still the setting's, and ``instruments`` how far the readings' marks and
    hydrometer move their mean, by their names: what is read with them again is out by as much, the same way.
    """

    setting: Value
    middle: Value
    next_brew: Value
    brew_sd: float
    kept: float
    instruments: Doubts

    @classmethod
    def of(cls, setting: Value, brew_sd: float, counted: list[Lesson]) -> _Found:
        """By `equations.learning`, each reading without what its instruments have in common with the others."""
        shared = [_shared(lesson) for lesson in counted]
        spreads = [_own_spread(lesson, own) for lesson, own in zip(counted, shared, strict=True)]
        middle, next_brew = _estimated(setting, brew_sd, counted, spreads)
        kept = (next_brew.number**2 - brew_sd**2) / (setting.spread**2 - brew_sd**2)
        weights = [1 / (brew_sd**2 + spread**2) for spread in spreads]
        ends = (
            (name, ((1 - kept) * weight / fsum(weights) * low, (1 - kept) * weight / fsum(weights) * high))
            for own, weight in zip(shared, weights, strict=True)
            for name, (low, high) in own.items()
        )
        return cls(setting, middle, next_brew, brew_sd, kept, added_up(ends, middle.number))

    @property
    def own_variance(self) -> float:
        """How unsure the brewhouse's own mean is."""
        return max(self.next_brew.number**2 - self.brew_sd**2, 0.0)

    def taught(self, variance: float) -> Value:
        """The middle with what is left of its doubts, under the setting's own name, and its instruments' beside it."""
        lean = self.kept**3 * whole_of(self.setting.doubts).lean
        triple = read_back(self.middle.number, Sums(0.0, variance, lean))
        doubts = self.setting.doubts
        name = next(iter(doubts)) if len(doubts) == 1 else self.setting.label
        ends = (triple.low - self.middle.number, triple.high - self.middle.number)
        return replace(self.middle, origin=Taught(self.middle, {name: ends, **self.instruments}))


def _shared(lesson: Lesson) -> Doubts:
    instruments = (marks_of(lesson.brewhouse), HYDROMETER)
    return {name: ends for name, ends in lesson.value.doubts.items() if name in instruments}


def _own_spread(lesson: Lesson, shared: Doubts) -> float:
    return sqrt(whole_of({k: v for k, v in lesson.value.doubts.items() if k not in shared}).variance)


def _estimated(setting: Value, brew_sd: float, counted: list[Lesson], spreads: list[float]) -> tuple[Value, Value]:
    """The brewhouse's own mean, and one standard deviation of the next brew about it."""
    given_by = setting.origin
    sure, line = (
        (given_by.words, given_by.place) if isinstance(given_by, Given) else ("the doubts of the setting", None)
    )

    def plain(number: float, label: str, words: str, place: Place | None = None) -> Value:
        return given(number, setting.unit, label, words=words, place=place)

    put_in: dict[str, Operand] = {
        "setting_spread": plain(setting.spread, f"{setting.label}, as sure as it is set", sure, line),
        "brew_to_brew": plain(brew_sd, "how much brews differ", PRACTICE),
        "readings": tuple(lesson.value for lesson in counted),
        "reading_spreads": tuple(
            plain(spread, f"spread of {it.value.label}", "the doubts of the batch's readings", it.place)
            for it, spread in zip(counted, spreads, strict=True)
        ),
    }
    shift = whole_of(setting.doubts).shift
    mean = (
        plain(setting.number + shift, f"{setting.label}, the mean of what it may be", sure, line) if shift else setting
    )
    middle = apply(learning.learned_mean, setting.label, setting=mean, **put_in)
    spread_label = f"{setting.label}, spread of the next brew"
    return middle, apply(learning.learned_spread, spread_label, middle=middle, **put_in)


def _brew_to_brew(subject: Subject, setting: Value) -> float:
    """One standard deviation of brews about their brewhouse's mean, never so much that nothing is left to learn."""
    usual = BREW_TO_BREW[subject] if subject in BREW_TO_BREW else BREW_TO_BREW_SHARE[subject] * setting.number
    return min(usual, LEAST_UNSURE * setting.spread)


def _weighed(lesson: Lesson, middle: Value, brew_sd: float) -> Weighed:
    label = f"weight of {lesson.value.label}"
    if not _counts(lesson):
        why = lesson.aside or "nothing says how sure this reading is"
        return Weighed(lesson, given(0.0, "ratio", label, words=why, place=lesson.place), why)
    spreads = (lesson.value.number - middle.number) / hypot(brew_sd, lesson.value.spread)
    origin = "reckoned from the reading, the middle and how much brews differ"
    named = f"distance of {lesson.value.label} from the middle"
    distance = given(spreads, "standard deviations", named, words=origin, place=lesson.place)
    weight = apply(learning.huber_weight, label, distance=distance)
    odd = "it lies far from the others and from the setting" if weight.number < MILDLY_ODD else ""
    return Weighed(lesson, weight, odd)
