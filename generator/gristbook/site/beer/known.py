"""A beer as the rest of the book knows it: by the answers that it has given, each worked out once.

Whatever a page tells of many beers it asks of each by a question: a function of one beer and of what is asked about. So
a beer whose answers are at hand need not be worked out again for the pages of others.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeAlias, TypeVar, cast

from gristbook.model.book import Book
from gristbook.model.style import Style
from gristbook.problems import Place
from gristbook.site.beer.brews import Beer, beer_of
from gristbook.site.working.walk import Elsewhere
from gristbook.targets.editions.make import wanted
from gristbook.targets.figures import Plan

if TYPE_CHECKING:
    from gristbook.site.desk import Written

P = ParamSpec("P")
T = TypeVar("T")

Question: TypeAlias = tuple[Hashable, ...]
"""What is asked of a beer: the function that answers by its module and its name, and what is asked about."""

WHOLE: Question = ("everything",)
"""What is heard where a page goes by all that is known of a beer."""


@dataclass(frozen=True, slots=True)
class Remembered:
    """A beer of which the answers are at hand, and its text as it was ``written`` out; ``plan`` works it out."""

    slug: str
    plan: Callable[[], Plan]
    answers: dict[Question, object]
    written: Written


class Worked:
    """A beer that is worked out, and may be let go of, since ``anew`` works it out again."""

    def __init__(self, plan: Plan, anew: Callable[[], Plan]) -> None:
        self.slug: str = plan.recipe.slug
        self._plan: Plan | None = plan
        self._anew = anew

    def plan(self) -> Plan:
        """The plan, once more if need be."""
        self._plan = self._plan or self._anew()
        return self._plan

    def forget(self) -> None:
        """Let go of it."""
        self._plan = None


class Ear:
    """Hears what is asked of which beers, as long as somebody listens."""

    def __init__(self) -> None:
        self.heard: dict[Question, dict[str, None]] | None = None

    def hear(self, asked: Question, slug: str) -> None:
        """Keep a question and whom it was put to."""
        if self.heard is not None:
            self.heard.setdefault(asked, {})[slug] = None

    @contextmanager
    def listening(self, heard: dict[Question, dict[str, None]] | None) -> Iterator[None]:
        """Keep what is heard there; `None` to hear nothing."""
        self.heard, before = heard, self.heard
        try:
            yield
        finally:
            self.heard = before


class Known:
    """A beer with its answers; its plan and its pages' matter are worked out when they are first asked for.

    Parameters
    ----------
    it : its plan, or what gives it; or what is remembered of it
    elsewhere : the values that are worked out on other pages, as `beer_of` takes them
    ear : hears what it is asked
    """

    def __init__(
        self,
        it: Plan | Worked | Remembered,
        book: Book,
        elsewhere: Mapping[int, Elsewhere] | None = None,
        ear: Ear | None = None,
    ) -> None:
        self.of, self._book, self._elsewhere, self._ear = it, book, elsewhere, ear or Ear()
        self.slug: str = it.recipe.slug if isinstance(it, Plan) else it.slug
        self.answers: dict[Question, object] = it.answers if isinstance(it, Remembered) else {}

    @cached_property
    def _plan(self) -> Plan:
        return self.of if isinstance(self.of, Plan) else self.of.plan()

    @cached_property
    def _beer(self) -> Beer:
        return beer_of(self._plan, self._book, self._elsewhere)

    @property
    def plan(self) -> Plan:
        """The recipe worked out as it is written."""
        self._ear.hear(WHOLE, self.slug)
        return self._plan

    @property
    def beer(self) -> Beer:
        """The recipe and its editions with everything that their pages are made from."""
        self._ear.hear(WHOLE, self.slug)
        return self._beer

    def forget(self) -> None:
        """Let go of all but its answers, where it can be worked out again."""
        if "_beer" in self.__dict__:
            self._beer.home.workings.forget()
        if not isinstance(self.of, Plan):
            self.__dict__.pop("_beer", None)
            self.__dict__.pop("_plan", None)
        if isinstance(self.of, Worked):
            self.of.forget()

    def ask(self, question: Callable[Concatenate[Known, P], T], *about: P.args, **no: P.kwargs) -> T:
        """What a question gives for this beer; what it is ``about`` is all that the answer rests on besides."""
        assert not no, "a question is known by what stands in its order"
        asked = question.__module__, question.__qualname__, *about
        self._ear.hear(asked, self.slug)
        if asked not in self.answers:
            with self._ear.listening(None):
                self.answers[asked] = question(self, *about, **no)
        return cast(T, self.answers[asked])

    def answer(self, asked: Question) -> object:
        """What a question gives that was heard before."""
        module, name, *about = asked
        return self.ask(getattr(sys.modules[str(module)], str(name)), *about)

    @property
    def title(self) -> str:
        """What it is called."""
        return self.ask(_title)

    @property
    def summary(self) -> str:
        """The sentence under its title."""
        return self.ask(_summary)

    @property
    def style(self) -> Style | None:
        """The style that it names."""
        return self.ask(_style)

    @property
    def date(self) -> str:
        """When it was published, "" where it does not say."""
        return self.ask(_date)

    @property
    def place(self) -> Place:
        """Where its text lies."""
        return self.ask(_place)

    @property
    def prose_begins(self) -> Place:
        """Where what is told of it begins there."""
        return self.ask(_prose_begins)

    @property
    def editions(self) -> tuple[str, ...]:
        """The addresses of the editions that it should get, whether they can be made or not."""
        return self.ask(_wanted)


def _title(it: Known) -> str:
    return it.plan.recipe.title


def _summary(it: Known) -> str:
    return it.plan.recipe.summary


def _style(it: Known) -> Style | None:
    return it.plan.recipe.style


def _date(it: Known) -> str:
    return it.plan.recipe.date


def _prose_begins(it: Known) -> Place:
    return Place(it.plan.recipe.place.path, it.plan.recipe.prose_line)


def _place(it: Known) -> Place:
    return it.plan.recipe.place


def _wanted(it: Known) -> tuple[str, ...]:
    return tuple(edition.slug for edition in wanted(it.plan, it._book))


def edition_words(it: Known) -> dict[str, str]:
    """What each edition of a beer that could be made is, by its address."""
    return {one.made.edition.slug: one.words for one in it.beer.editions}
