"""A book in Python: read it, ask for its problems and plans, write its pages. The command line stands on this."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from gristbook.built import OF_ONE_BEER, Site
from gristbook.problems import Place, Problem, Problems, nearest

if TYPE_CHECKING:
    from gristbook.model.book import Book as ReadBook
    from gristbook.model.brewhouse import Brewhouse
    from gristbook.sheet.value import Value
    from gristbook.site.build import OnMade
    from gristbook.targets.batches.brewed import Brewed
    from gristbook.targets.editions.make import MadeEdition
    from gristbook.targets.figures import Plan as WorkedOut

ASKED = "what is asked for"
"""Where a problem stands that is in no file of the book."""


class NoPlan(ValueError):
    """A recipe that is not in the book, or that cannot be brewed so; ``problems`` say why, each with its place."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(map(str, problems)))
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a plan: what it is called, its number in its unit (SI, SG, IBU, SRM …), and how sure it is.

    Nine brews in ten fall between ``low`` and ``high``; ``mover`` is the doubt that moves it most, "" where none does.
    """

    words: str
    value: Value

    @property
    def number(self) -> float:
        """The number, in ``unit``."""
        return self.value.number

    @property
    def unit(self) -> str:
        """The unit; "fraction" and "ratio" have none."""
        return self.value.unit

    @property
    def low(self) -> float:
        """Nine brews in ten fall between this and ``high``."""
        return self.value.low

    @property
    def high(self) -> float:
        """Nine brews in ten fall between ``low`` and this."""
        return self.value.high

    @property
    def mover(self) -> str:
        """What its range owes most to."""
        return self.value.mover

    @property
    def working(self) -> str:
        """All that it rests on, a line each, down to the author's own lines."""
        from gristbook.site.working.spelled import spelled

        return "\n".join(map(str, spelled(self.value)))


class Plan(Mapping[str, Figure]):
    """A recipe worked out: its figures by id, as `original-gravity` or `hop.fuggle/bitterness`, in the brew's order."""

    def __init__(self, book: ReadBook, plan: WorkedOut, made: MadeEdition | None) -> None:
        self.book, self.plan, self.made = book, plan, made

    def __getitem__(self, figure: str) -> Figure:
        from gristbook.model.figures import words_of

        value = self.plan.sheet[figure]
        return Figure(value.label if "/" in figure else words_of(figure), value)

    def __iter__(self) -> Iterator[str]:
        return iter(self.plan.sheet)

    def __len__(self) -> int:
        return len(self.plan.sheet)

    @property
    def us_first(self) -> bool:
        """Which units come first."""
        return self.made.edition.us if self.made else self.book.units == "US"

    @property
    def words(self) -> str:
        """What it is: the beer, its size, its brewhouse."""
        from gristbook.site.beer.brews import brewed, edition_words
        from gristbook.site.prose import plain

        plan = self.plan
        size = brewed(plan.recipe.batch, plan.brewhouse.name, us=self.us_first)
        what = edition_words(self.made.edition, plan) if self.made else size
        return f"{plain(plan.recipe.title)}, {what}".replace("\N{NO-BREAK SPACE}", " ")


class Book:
    """A book's folder, read. What is wrong in it is not raised, but stands in ``problems``, which grow as it is asked.

    ``problems`` has every error and warning found so far: those of texts and batches at once, those of plans and pages
    once these are worked out; `check` finds all of them.
    """

    def __init__(self, folder: Path) -> None:
        self.folder, self._found, self._built = folder, Problems(), False

    @cached_property
    def _read(self) -> ReadBook | None:
        from gristbook.text.book import read_book

        return read_book(self.folder, self._found)

    @cached_property
    def _brewed(self) -> Brewed | None:
        from gristbook.targets.batches.brewed import brewed

        return brewed(self._read, self._found) if self._read else None

    @cached_property
    def _wrong_in_texts(self) -> tuple[Problem, ...]:
        return tuple(self.problems.errors())

    @property
    def problems(self) -> Problems:
        """Every error and warning found so far."""
        if not self._built:
            _ = self._brewed
        return self._found

    @cached_property
    def _plans(self) -> tuple[WorkedOut, ...]:
        from gristbook.targets.plan import plan_book

        return plan_book(self._brewed.book, self.problems) if self._brewed else ()

    @property
    def recipes(self) -> tuple[str, ...]:
        """The recipes that could be read, each by its file's name without its ending."""
        return tuple(recipe.slug for recipe in self._read.recipes) if self._read else ()

    @property
    def brewhouse(self) -> Brewhouse | None:
        """The brewhouse of recipes that name none; `None` where the book cannot be read."""
        return self._read.brewhouses[self._read.brewhouse] if self._read else None

    @property
    def us_first(self) -> bool:
        """Which units come first."""
        return self._read is not None and self._read.units == "US"

    @property
    def assumed(self) -> tuple[str, ...]:
        """What the book does not say of its vessels, and is assumed as it usually is, a sentence for each set."""
        sets = self._read.brewhouses.values() if self._read else ()
        return tuple(
            "book.yaml has no brewhouses: usual vessels are assumed, that fit each batch"
            if it.assumed
            else f"the brewhouse {it.name} does not say {', '.join(it.unsaid)}: it is assumed to fit each batch"
            for it in sets
            if it.assumed or it.unsaid
        )

    def check(self) -> int:
        """Find every problem of texts, plans, theme and pages, and write nothing; how many beers can be brewed."""
        from gristbook.site.beer.known import Known
        from gristbook.site.disk.files import Files
        from gristbook.site.outline import outline

        if self._brewed is not None:
            batches = [it.batch for it in self._brewed.batches]
            beers = [Known(plan, self._brewed.book) for plan in self._plans]
            what = self._brewed.book, beers, batches, Files(self.problems), self.problems
            outline(*what, folder=self.folder, theme=self.folder / "theme")
        return len(self._plans)

    def plan(
        self, recipe: str, *, batch: str = "", brewhouse: str = "", source: str = "", edition: str = "", text: str = ""
    ) -> Plan:
        """A recipe worked out, as it is written or in another edition.

        Parameters
        ----------
        recipe : its file's name, with or without its ending
        batch : another size, as "10 L" or "5 gal"
        brewhouse : another of the book's brewhouses, by name
        source : "extract" or "grain", where it is to be brewed from another than it is written for
        edition : all of that in one line, as book.yaml has it: "extract 10 L in pot"
        text : what its file is taken to hold, where that is another text than it does

        Raises
        ------
        NoPlan
            There is no such recipe, it has errors, or it cannot be brewed so.
        """
        asked = edition or " ".join(it for it in (source, batch, f"in {brewhouse}" if brewhouse else "") if it)
        problems, own = Problems(), self._path_of(recipe)
        found = self._planned(own, text, problems)
        plan = self._edition(found, asked, problems) if found else None
        before = (it for it in self._wrong_in_texts if not (text and it.text == own))
        told = tuple(_concerning(own, (*before, *problems.errors())))
        if plan is None or told:
            raise NoPlan(told)
        return plan

    def build(
        self, out: str | Path, *, strict: bool = False, pdf: bool = False, on_made: OnMade = lambda *_: None
    ) -> Site | None:
        """Write the site: what is sound is written even where other texts have errors, unless it has to be ``strict``.

        Gives `None` where nothing was written: the book or its theme has an error, or, if it is to be ``strict``, any
        text has an error or a warning. With ``pdf`` the whole book is one of its files, for paper. ``on_made`` is told
        what is made next, how many pieces of the site are made, and of how many.

        Raises
        ------
        gristbook.site.book.paper.NoPdf
            What makes a PDF is not installed.
        gristbook.site.disk.owned.NotOurs
            The folder holds what we did not write, or lies in the book.
        """
        from gristbook.building import build
        from gristbook.site.book.paper import printer

        self._built = True
        return build(
            self.folder, Path(out), self._found, strict=strict, pdf=printer() if pdf else None, on_made=on_made
        )

    def _path_of(self, recipe: str) -> str:
        """Where a recipe lies in the book, by its name or its path."""
        found = {it.slug: it.place.path for it in self._read.recipes} if self._read else {}
        return found.get(recipe) or (recipe if Path(recipe).suffix else f"{recipe}.md")

    def _planned(self, own: str, text: str, problems: Problems) -> WorkedOut | None:
        """The plan of one recipe, without those of the others."""
        from gristbook.targets.batches.learn import taught_book
        from gristbook.targets.plan import plan_recipe
        from gristbook.text.book import with_recipe

        book = self._brewed.book if self._brewed else None
        if text and self._read and self._brewed:
            book = taught_book(with_recipe(text, own, self._read, self.folder, problems), self._brewed.lessons)
        recipe = next((it for it in book.recipes if it.place.path == own), None) if book else None
        plan = plan_recipe(recipe, book, problems) if book and recipe else None
        if plan is None and book is not None and not (self.problems.errors(own) or problems.errors(own)):
            there = (self.folder / own).is_file()
            what = "this is no recipe of the book" if there else "there is no such file"
            near = nearest(Path(own).stem, () if there else self.recipes)
            problems.error(Place(own), what, suggestion=near and self._path_of(near))
        return plan

    def _edition(self, plan: WorkedOut, asked: str, problems: Problems) -> Plan | None:
        from gristbook.reading.tree import Text
        from gristbook.targets.editions.make import MadeEdition, make
        from gristbook.text.editions import read_editions

        assert self._brewed is not None
        book, place = self._brewed.book, Place(ASKED)
        if not asked:
            return Plan(book, plan, None)
        editions, dropped = read_editions((Text(asked, place, exact=False),), book.brewhouses, problems)
        if dropped:
            problems.error(place, f'"{asked}" asks for nothing', expected="a size, as 12 L or 5 gal")
        if not editions:
            return None
        made = make(plan, editions[0], book)
        if isinstance(made, MadeEdition):
            return Plan(book, made.plan, made)
        problems.error(place, f"{asked}: {made.why}")
        return None


def _concerning(own: str, errors: tuple[Problem, ...]) -> Iterator[Problem]:
    """The errors that a recipe suffers from: its own, and those of what the whole book rests on."""
    yield from (it for it in dict.fromkeys(errors) if it.text == own or not it.text.endswith(OF_ONE_BEER))
