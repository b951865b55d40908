"""A page of working: each figure once under its formula, with the numbers of every kettle side by side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from markupsafe import Markup

from gristbook.sheet.origin import Given, Reckoned, Worked
from gristbook.sheet.value import Value
from gristbook.site.addresses import slug
from gristbook.site.amounts import SPACE, Amount, amount
from gristbook.site.words import capital
from gristbook.site.working.formulas import drawn
from gristbook.site.working.numbers import unit_word
from gristbook.site.working.steps import Letter, Step, bounds_of, in_words, letters_of, step_of, symbols_of, values_of
from gristbook.site.working.walk import Elsewhere, Kettle, Told, Walk, parts_of, told_of, walked, words_of
from gristbook.site.working.worksheet import (
    Block,
    Cell,
    Entry,
    GivenFile,
    GivenRow,
    Key,
    Part,
    Remark,
    Working,
    Worksheet,
)

EQUALS = f"{SPACE}={SPACE}"

ALL = ".all"
"""Behind the name of the first figure of several that come by one formula: the anchor of them all."""

SURE = "; as sure as "
"""Before the kind that a number is as sure as, where nobody says how sure it is, and why."""

MODELS = "After each published model"


def worksheet(
    kettles: Sequence[Kettle], taken: Iterable[str] = (), elsewhere: Mapping[int, Elsewhere] | None = None
) -> tuple[Worksheet, tuple[Working, ...]]:
    """The page of some kettles' workings, and where on it the figures of each stand, as `walked` takes them."""
    return laid_out(walked(kettles, taken, elsewhere))


def laid_out(walks: Sequence[Walk]) -> tuple[Worksheet, tuple[Working, ...]]:
    """The page of what `walked` gives, and where on it the figures of each kettle stand."""
    made, kettles = _Page(walks), tuple(walk.kettle for walk in walks)
    workings = tuple(
        Working({id(value): (value, made.place(n, name)) for value, name in walk.named()})
        for n, walk in enumerate(walks)
    )
    return Worksheet(kettles, tuple(filter(None, map(made.part, parts_of(kettles)))), told_of(walks)), workings


class _Figure:
    """A figure of one name and one form, what each kettle makes of it, by its place, and the anchor of its row.

    ``own`` is the first kettle that has it, and ``first`` what that makes of it.
    """

    def __init__(self, told: Told, own: int, first: Step) -> None:
        self.name, self.part, self.folded, self.row = told.name, told.part, told.folded, told.name
        self.own, self.first, self.steps = own, first, {own: first}


class _Page:
    """Puts the figures of several walks side by side."""

    def __init__(self, walks: Sequence[Walk]) -> None:
        self._walks = walks
        # A figure stands in the part of the first kettle that has it; what comes by another formula is another figure.
        forms: dict[tuple[str, object], _Figure] = {}
        parts: dict[str, Told] = {}
        for n, walk in enumerate(walks):
            for told in walk.told:
                step, there = step_of(told.value, walk), parts.setdefault(told.name, told)
                what = step.given_by if step.form is None else step.form
                if (told.name, what) not in forms:
                    forms[told.name, what] = _Figure(there, n, step)
                forms[told.name, what].steps[n] = step
        self._figures = [*forms.values()]
        self._of = {(n, it.name): it for it in self._figures for n in it.steps}
        self._anchored: set[str] = set()
        self._alike = {name for name, its in _by(self._figures, "name").items() if self._all_alike(its)}
        # The first of a name bears it; what was given, and what others reckon otherwise, has its kettle before it.
        first = {it.name: it for it in reversed(self._figures)}
        for it in self._figures:
            if it.first.form is None or it is not first[it.name]:
                it.row = self.place(it.own, it.name)
        self._given_in = _by((it for it in self._figures if it.first.form is None), "part")
        self._block_of: dict[_Figure, str] = {}
        self._told: dict[str, tuple[str, str]] = {}
        self._sure: dict[str, set[int]] = {}
        reckoned = _by((it for it in self._figures if it.first.form is not None), "part")
        self._blocks = {part: self._gathered(its) for part, its in reckoned.items()}

    def _all_alike(self, figures: Sequence[_Figure]) -> bool:
        """Whether a reader sees the same of all kettles that have a figure."""
        steps = [step.printed for figure in figures for step in figure.steps.values()]
        return all(step == steps[0] for step in steps)

    def _gathered(self, figures: Iterable[_Figure]) -> list[list[_Figure]]:
        """Figures of a part that come by one formula, together."""
        blocks: dict[object, list[_Figure]] = {}
        for it in figures:
            blocks.setdefault((it.folded, it.first.form, it.first.words), []).append(it)
        for block in blocks.values():
            for it in block:
                self._block_of[it] = block[0].row + ALL if len(block) > 1 else ""
        return [*blocks.values()]

    def place(self, n: int, name: str) -> str:
        """Where the page has a figure of a kettle, by its name; what several were given alike has one row."""
        it = self._of.get((n, name))
        own = self._walks[it.own if it and it.first.form is None else n].kettle.slug
        return f"{own}.{name}" if own and name and name not in self._alike else name

    def part(self, title: str) -> Part | None:
        """A part of the page, if it has a figure."""
        given, blocks = self._given_in.get(title, []), self._blocks.get(title, [])
        if not given and not blocks:
            return None
        files = tuple(self._given(given))
        own, others = ([self._block(it) for it in blocks if it[0].folded is folded] for folded in (False, True))
        models = tuple(self._by_every_model(title))
        if models:
            own.append(Block("", MODELS, "", Markup("their steps are folded below"), (), None, ("", ""), models))
        about = next((it.about for walk in self._walks for it in walk.kettle.groups if it.title == title), "")
        return Part(slug(title), title, about, tuple(self._comes_to(title)), files, (*own,), (*others,))

    def _by_every_model(self, title: str) -> Iterator[Entry]:
        """What each model makes of a part, in each kettle; without the numbers put in."""
        found: dict[str, Value] = {}
        for walk in self._walks:
            for it in walk.told:
                if it.part == title and it.folded and walk.shown(it.value):
                    found.setdefault(it.name, it.value)
        for name, value in found.items():
            steps = (self._of.get((n, name)) for n in range(len(self._walks)))
            made = (figure.steps[n] if figure else None for n, figure in enumerate(steps))
            cells = (Cell("", "", it.result, it.us, it.between) if it else Cell() for it in made)
            yield Entry("", capital(words_of(value)), "", tuple(cells), ())

    def _comes_to(self, title: str) -> Iterator[tuple[str, Amount]]:
        """What a part comes to in each kettle."""
        found: dict[Amount, list[int]] = {}
        for n, walk in enumerate(self._walks):
            for group in walk.kettle.groups:
                if group.title == title and group.comes_to is not None:
                    found.setdefault(amount(group.comes_to), []).append(n)
        for shown, kettles in found.items():
            yield self._marks(kettles), shown

    def _marks(self, kettles: Iterable[int]) -> str:
        """How the page says of which kettles something is; "" for all."""
        has = [*kettles]
        return " ".join((*(f"k{n}" for n in has), "k")) if len(has) < len(self._walks) else ""

    def _anchor(self, name: str) -> str:
        """The name for the first that bears it on the page."""
        if name in self._anchored:
            return ""
        self._anchored.add(name)
        return name

    def _given(self, given: Sequence[_Figure]) -> Iterator[GivenFile]:
        """The recipe's own file first, then the others by path, last what no file gives."""
        files: dict[str, list[_Figure]] = {}
        for it in given:
            place = it.first.value.place
            files.setdefault(place.path if place and not _led(it.first) else "", []).append(it)
        for path in sorted(files, key=lambda path: (not path, "/" in path, path == "book.yaml", path)):
            rows = sorted(files[path], key=lambda it: (it.first.value.place is None, it.first.value.place or 0))
            marks = self._marks(sorted({n for it in rows for n in it.steps}))
            yield GivenFile(path, marks, tuple(map(self._given_row, rows)))

    def _given_row(self, it: _Figure) -> GivenRow:
        step, led, made = it.first, _led(it.first), it.first.value.made
        words = led.origin if led else self._once(made.words, it.steps) if isinstance(made, Given) else ""
        line = step.value.place.line if step.value.place and not led else None
        between = step.between.metric if step.between else ""
        place = self._anchor(it.row)
        label, marks = capital(words_of(step.value)), self._marks(it.steps)
        return GivenRow(place, label, marks, step.result, between, words, line, led.path if led else "")

    def _once(self, words: str, kettles: Iterable[int]) -> str:
        """The words of who gave a number; why a kind is as sure as it is, a reader of one kettle is told once."""
        said, sure, kind = words.partition(SURE)
        known = self._sure.setdefault(kind, set())
        if sure and known.issuperset(kettles):
            return said + sure + kind.partition(" is: ")[0] + " is"
        known.update(kettles)
        return words

    def _block(self, block: Sequence[_Figure]) -> Block:
        """What comes by one formula; an equation is told in full the first time only."""
        first, several = block[0], len(block) > 1
        value, made = first.first.value, first.first.value.made
        title = capital(first.first.words if several else words_of(value))
        marks = self._marks(sorted({n for it in block for n in it.steps}))
        anchor = self._anchor(first.row + ALL if several else first.row)
        entries = tuple(self._entry(it, title) for it in block)
        if isinstance(made, Reckoned):
            said = in_words(made, first.first.walk, partial(self._link, first), first.first.thing if several else "")
            return Block(anchor, title, marks, said, (), None, ("", ""), entries)
        assert isinstance(made, Worked)
        record = made.equation
        above = self._told.setdefault(record.name, (anchor, title))
        above = above if above != (anchor, title) else ("", "")
        keys = tuple(self._key(n, letter, block) for n, letter in enumerate(letters_of(made)))
        return Block(anchor, title, marks, drawn(record.formula), keys, record.source, above, entries)

    def _entry(self, it: _Figure, title: str) -> Entry:
        """A row: a cell a kettle, or one for all that have it where they read alike."""
        cells = [self._cell(n, it) for n in range(len(self._walks))]
        only = [cell for n, cell in enumerate(cells) if n in it.steps]
        alike = all(cell == only[0] for cell in only)
        label = ", ".join(filter(None, (capital(it.first.thing or words_of(it.first.value)), it.first.line)))
        told = (only[0],) if alike else tuple(cells)
        anchor = self._anchor(it.row)
        if len(told) == 1 and not anchor:
            anchor, told = told[0].anchor, (replace(told[0], anchor=""),)
        return Entry(anchor, label if label != title else "", self._marks(it.steps), told, (*self._remarks(it),))

    def _cell(self, n: int, it: _Figure) -> Cell:
        """The numbers of one kettle; it has an anchor of its own where that kettle's pages show the figure."""
        step = it.steps.get(n)
        if step is None:
            return Cell()
        place, made = self.place(n, it.name), step.value.made
        anchor = self._anchor(place) if place != it.name and step.walk.shown(step.value) else ""
        put, sign = step.put_in[0], "="
        if isinstance(made, Worked):
            letters = zip(symbols_of(made), step.put_in, strict=True)
            put, sign = ", ".join(f"{drawn(letter)}{EQUALS}{number}" for letter, number in letters), "gives"
        return Cell(Markup(put.replace("&#39;", "'")), sign, step.result, step.us, step.between, anchor)

    def _remarks(self, it: _Figure) -> Iterator[Remark]:
        notes = dict.fromkeys(note for step in it.steps.values() for note in step.notes)
        for note in notes:
            said_of = [n for n, step in it.steps.items() if note in step.notes]
            yield Remark(self._marks(said_of), note.before, bounds_of(note), note.after)

    def _place_of(self, n: int, walk: Walk, value: Value) -> tuple[str, _Figure | None]:
        """Where a number stands that goes into a figure: of its own kettle, or of the recipe as it is written."""
        own = walk.names.get(id(value))
        if own is None:
            return walk.name(value), self._of.get((0, walk.name(value)))
        it = self._of.get((n, own))
        return self.place(n, own) if walk.shown(value) or it is None else it.row, it

    def _link(self, it: _Figure, value: Value, every: bool) -> str:
        """Where a word of a sum leads: to all of its kind, if the sum is of things of a kind, else to the figure."""
        href, there = self._place_of(it.own, it.first.walk, value)
        all_of = every or (len(it.first.thing) > 0 and it.first.thing in value.label)
        return (all_of and there and self._block_of.get(there)) or href

    def _key(self, n: int, letter: Letter, block: Sequence[_Figure]) -> Key:
        """What a letter means, with links to where its numbers come from."""
        names, sums = dict[str, _Figure | None](), dict[str, Markup]()
        for it in block:
            made, walk = it.first.value.made, it.first.walk
            assert isinstance(made, Worked)
            for value in values_of(made.inputs[n][1]):
                if isinstance(value.made, Reckoned) and walk.in_line(value):
                    said = in_words(value.made, walk, partial(self._link, it), it.first.thing)
                    sums.setdefault(said.striptags(), said)
                else:
                    href, figure = self._place_of(it.own, walk, value)
                    names[href] = figure
        names.pop("", None)
        href, there = next(iter(names.items()), ("", None))
        href = (len(names) > 1 and there and self._block_of.get(there)) or href
        unit = unit_word(letter.unit)
        words = f"{letter.words}, {unit}" if unit and f" {unit} " not in f" {letter.words} " else letter.words
        return Key(drawn(letter.letter), words, href, tuple(sums.values()))


def _by(figures: Iterable[_Figure], field: str) -> dict[str, list[_Figure]]:
    found: dict[str, list[_Figure]] = {}
    for it in figures:
        found.setdefault(getattr(it, field), []).append(it)
    return found


def _led(step: Step) -> Elsewhere | None:
    """Where it is worked out, if on another page."""
    return step.walk.ends.get(id(step.value))
