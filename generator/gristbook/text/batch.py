"""A batch's file to the model: what was brewed, as it stood then, what was measured, what became of it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path, PurePosixPath
from typing import TypeVar

from gristbook.model.batch import Batch, Frozen, Level, Measured, Reading
from gristbook.model.paths import BOOK_FOLDERS
from gristbook.pantry.fields import DIASTATIC_POWER
from gristbook.pantry.spread import read_spread
from gristbook.problems import Place, Problems, nearest
from gristbook.reading.fields import Field, Fields, read_fields
from gristbook.reading.files import read_text
from gristbook.reading.line import Line
from gristbook.reading.lines import bare_line, readable
from gristbook.reading.names import DATED, one_form, shown, unfit
from gristbook.reading.page import Page, read_page
from gristbook.reading.tree import Node, Table, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value
from gristbook.text.batch_checks import check_batch
from gristbook.text.batch_lines import (
    ORIGIN,
    read_day,
    read_level,
    read_moment,
    read_packaged,
    read_plan,
    read_reading,
    read_tasting,
)
from gristbook.text.batch_vocabulary import BATCH, FROZEN, MEASURED
from gristbook.text.editions import edition_address
from gristbook.text.fermenting import read_ferment
from gristbook.text.log import read_log
from gristbook.text.mashing import read_mash
from gristbook.text.values import Desk, said, unread
from gristbook.text.vocabulary import LINES

T = TypeVar("T")

STEPS: Mapping[str, Callable[[Node, Desk], object]] = {
    "mash": lambda node, desk: read_mash((node,), desk),
    "ferment": lambda node, desk: read_ferment((node,), desk),
}
"""Sections whose lines are read as a recipe's are: no pantry is asked for them."""

BOILING_POINT = "boiling-point"


def read_batches(
    folder: Path, recipes: frozenset[str], brewhouses: Mapping[str, object], desk: Desk
) -> tuple[Batch, ...]:
    """The batches of a book that can be read, by day and name; ``recipes`` are the recipes' files by their stems.

    A batch without a recipe, or in a brewhouse that the book has no longer, stays, and is worth a word.
    """
    found: list[Batch] = []
    for recipe, path in _files(folder, recipes, desk.problems):
        source = read_text(folder, path, desk.problems)
        batch = read_batch(source, path, folder, brewhouses, desk) if source is not None else None
        if batch is None:
            continue
        found.append(batch)
        if recipe not in recipes:
            what, near = f"the recipe of this batch is gone: no {recipe}.md", nearest(recipe, recipes)
            desk.problems.warning(batch.place, what, suggestion=near)
    return tuple(sorted(found, key=lambda batch: (batch.brewed, batch.slug, batch.recipe)))


def _files(folder: Path, recipes: frozenset[str], problems: Problems) -> Iterator[tuple[str, str]]:
    """Each batch's recipe and path; in a folder that is no recipe's, only what is called by a day is a batch.

    A folder further down is looked into where a recipe is called as it is.
    """
    for path in sorted([*folder.glob("*/*.md"), *folder.glob("*/*/*.md")]):
        home, within = one_form(path.parent.name), path.relative_to(folder)
        if within.parts[0] in BOOK_FOLDERS or any(part.startswith(".") for part in within.parts):
            continue
        name = within.as_posix()
        if len(within.parts) > 2 and home not in recipes:
            continue
        if DATED.fullmatch(path.stem) and not unfit(home) and not unfit(path.stem):
            yield home, name
        elif home in recipes:
            what = "a batch is called by its day"
            problems.error(Place(shown(name)), what, expected="a name like 2026-03-14.md")


def read_batch(source: str, path: str, folder: Path, brewhouses: Mapping[str, object], desk: Desk) -> Batch | None:
    """The text of a batch to the model; `None` where it has an error. ``folder`` is the book's own, for its log."""
    problems = desk.problems
    page = read_page(source, path, problems)
    if page is None:
        return None
    fields = read_fields(filled(page.front), BATCH, problems, "a batch")
    frozen = _frozen(fields.table("recipe"), desk)
    name, table = PurePosixPath(path), fields.table("measured") or Table((), page.place)
    measured = read_fields(filled(table), MEASURED, problems, "what was measured")
    edition = fields.text("edition")
    batch = Batch(
        slug=name.stem,
        recipe=one_form(name.parent.name),
        brewed=fields.words("brewed") or _named_day(name.stem),
        brewhouse=_brewhouse(fields.text("brewhouse"), brewhouses, problems),
        edition=edition_address(edition, problems) if edition else "",
        yeast=_family(fields.text("yeast"), desk),
        frozen=frozen,
        measured=read_measured(measured, name, folder, _boiling(frozen), desk),
        ready=fields.words("ready"),
        tastings=_each(fields, "tasted", lambda node: read_tasting(node, problems)),
        thrown_away=fields.words("thrown away"),
        no_lesson=fields.words("no lesson"),
        prose=page.prose,
        place=page.place,
        prose_line=page.prose_line,
    )
    _check_day(batch, fields, page, problems)
    if not problems.errors(path):
        check_batch(batch, fields, problems)
    return None if problems.errors(path) else batch


def _brewhouse(text: Text | None, brewhouses: Mapping[str, object], problems: Problems) -> str:
    """The brewhouse's name, which the book may have dropped since."""
    if text is not None and text.value not in brewhouses:
        near = nearest(text.value, brewhouses)
        problems.warning(text.place, f'no brewhouse "{text.value}" is left to learn from this', suggestion=near)
    return text.value if text else ""


def _family(text: Text | None, desk: Desk) -> str:
    """The yeast by the pantry's name for it, under which a batch teaches; its own figures do not go by it."""
    if text is None:
        return ""
    match = desk.pantry.yeasts.look_up(text.value)
    if match.only is not None:
        return match.only.name
    several = match.names
    what = f'"{text.value}" may be several' if several else f'unknown yeast "{text.value}", of which nothing is learnt'
    desk.problems.warning(text.place, what, expected=several, suggestion="" if several else match.nearest)
    return " ".join(text.value.split())


def _named_day(stem: str) -> str:
    """The day in a file's name."""
    match = DATED.fullmatch(stem)
    return match["day"] if match else ""


def _check_day(batch: Batch, fields: Fields, page: Page, problems: Problems) -> None:
    """The day that a batch says, or its name where it says none."""
    written, named = fields.text("brewed"), _named_day(batch.slug)
    if written is None:
        read_day(Text(named, page.place, exact=False), bare_line(Text(batch.slug, page.place), problems))
    elif batch.brewed and batch.brewed != named:
        what = f"the file's name says {named}" if named else "the file's name says no day"
        problems.warning(written.place, what, within=written.value)


def filled(table: Table) -> Table:
    """A table without the blanks that nobody has filled in: a table whose lines are all blank is none."""
    return Table(tuple((key, node) for key, node in table.entries if not _blank(node)), table.place)


def _blank(node: Node) -> bool:
    return isinstance(node, Text) and not node.value


def _each(fields: Fields, name: str, read: Callable[[Node], T]) -> tuple[T, ...]:
    """Every line of a field that can be read; blank ones count for nothing."""
    return tuple(readable((node for node in fields.lines(name) if not _blank(node)), read))


def _frozen(table: Table | None, desk: Desk) -> Frozen:
    """The recipe as it stood: held to what a recipe may say, and looked up nowhere, so that nothing can change it."""
    if table is None:
        return Frozen("", (), {}, boil_min=None, dry_hopped=False)
    problems = desk.problems
    fields = read_fields(filled(table), FROZEN, problems, "a batch's recipe")
    plan = fields.table("plan")
    boil = {row.name: fields.quantity(row.name) for row in FROZEN if row.kind.bases}["boil"]
    sections = {row.name: _section(fields, row, desk) for row in FROZEN if row.name not in ("title", "plan")}
    return Frozen(
        fields.words("title"),
        tuple((name, tuple(words for words, _ in lines)) for name, lines in sections.items() if lines),
        read_plan(filled(plan), problems) if plan else {},
        boil_min=boil.number if boil else None,
        dry_hopped=any(line is not None and line.get("dry") for _, line in sections["hops"]),
    )


def _boiling(frozen: Frozen) -> Value | None:
    """How warm "hot" is, where the plan says so in degrees."""
    point = frozen.plan.get(BOILING_POINT)
    return point if point is not None and point.unit == "°C" else None


def _section(fields: Fields, row: Field, desk: Desk) -> list[tuple[str, Line | None]]:
    """The lines of a section, in the author's words and taken apart; what they cannot say has filed its problem."""
    lines = fields.texts(row.name, f"{row.name} are lines", "each as a brewer would say it")
    held = partial(_held, section=row.name, desk=desk)
    return [(" ".join(node.value.split()), next(readable([node], held), None)) for node in lines]


def _held(node: Node, section: str, desk: Desk) -> Line | None:
    """A line of a section, held to what a recipe's may say: the same words, and the same bounds."""
    if section in STEPS:
        STEPS[section](node, desk)
        return None
    properties = LINES.get(section)
    if properties is None:
        return None
    line = desk.line(node, section)
    for known in properties:
        text = line.get(known.key)
        if known.kind is DIASTATIC_POWER and text is not None:
            read_spread(text, known.kind, desk.problems, "")
        elif known.kind.bases:
            line.quantity(known.key)
    return line


def read_measured(fields: Fields, path: PurePosixPath, folder: Path, boiling: Value | None, desk: Desk) -> Measured:
    """What was measured, from fields that have all of it; what cannot be read has filed its problem."""
    return _Measured(fields, boiling, folder, desk).read(path)


@dataclass(frozen=True, slots=True)
class _Measured:
    """The table of what was measured; ``boiling`` is how warm "hot" is."""

    fields: Fields
    boiling: Value | None
    folder: Path
    desk: Desk

    def read(self, path: PurePosixPath) -> Measured:
        """Everything in it; what could not be read has filed its problem and is absent."""
        problems = self.desk.problems
        calibration = self._quantity("hydrometer", "calibration of the hydrometer")
        correction = self._quantity("wort correction", "wort correction factor", unit="ratio")
        moments = _each(self.fields, "readings", lambda node: read_moment(node, problems))
        return Measured(
            calibration=calibration or unread("°C"),
            wort_correction=correction or unread("ratio"),
            mash_temperature=self._quantity("mash temperature"),
            first_runnings=self._reading("first runnings", "gravity of the first runnings"),
            before_the_boil=self._level("before the boil", "before the boil"),
            boiled=self._quantity("boiled", "length of the boil"),
            end_of_the_boil=self._level("end of the boil", "at the end of the boil"),
            left_in_kettle=self._quantity("left in kettle", "wort left in the kettle"),
            into_the_fermenter=self._quantity("into the fermenter", "wort into the fermenter"),
            original=self._reading("original gravity"),
            pitched_at=self._quantity("pitched", "temperature at pitching"),
            moments=tuple(sorted(moments, key=lambda moment: moment.when)),
            log=self._line("log", lambda node: read_log(node, self.folder, path.parent.name, problems)),
            dry_hopped=self.fields.words("dry hopped"),
            final=self._reading("final gravity"),
            left_in_fermenter=self._quantity("left in fermenter", "beer left in the fermenter"),
            packaged=self._line("packaged", lambda node: read_packaged(node, self.desk)),
            warmest_storage=self._quantity("warmest storage"),
        )

    def _line(self, name: str, read: Callable[[Node], T]) -> T | None:
        """The one line of a field that may be a line or a mapping, as it is read."""
        lines = self.fields.lines(name)
        if len(lines) > 1:
            self.desk.problems.error(lines[1].place, f"a second line of {name}", expected="one")
        return next(readable((node for node in lines[:1] if not _blank(node)), read), None)

    def _quantity(self, name: str, label: str = "", unit: str = "") -> Value | None:
        read = self.fields.quantity(name)
        by, origin = (By.READER, ORIGIN) if self.fields.given(name) else (By.DEFAULT, "by default, common practice")
        return said(read, label or name, unit=unit, by=by, origin=origin) if read else None

    def _reading(self, name: str, label: str = "") -> Reading | None:
        text = self.fields.text(name)
        return read_reading(text, label or name, bare_line(text, self.desk.problems)) if text else None

    def _level(self, name: str, label: str) -> Level | None:
        return self._line(name, lambda node: read_level(node, label, self.boiling, self.desk.problems))
