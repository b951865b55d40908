"""From a pantry file to records: each entry read by its section's fields, an author's laid over ours by name."""

from dataclasses import replace
from typing import Any, Generic

from gristbook.pantry.fields import YES_NO
from gristbook.pantry.lookup import Shelf
from gristbook.pantry.names import VOCABULARIES, Words
from gristbook.pantry.poisons import poison_in
from gristbook.pantry.records import R
from gristbook.pantry.section import Section
from gristbook.pantry.spread import read_spread
from gristbook.problems import Place, Problems
from gristbook.reading.fields import LINES, TABLE, Field, Fields, read_fields
from gristbook.reading.tree import Listing, Table, Text, read_yaml

ASSUMED = "not stated; a usual value"
"""The source of a figure that an author's own new record leaves out."""


def read_section(source: str, path: str, section: Section[R], known: Shelf[R], problems: Problems) -> Shelf[R]:
    """A file's text laid over the records that are known: a new name adds one, a known one gets the values stated."""
    reader = _Reader(path, section, known, problems)
    tree = read_yaml(source, path, problems)
    expected = "a list of entries, each beginning with - name: …"
    if tree is not None and not isinstance(tree, Listing):
        problems.error(tree.place, f"the {section.name} are not a list", expected=expected)
    for entry in tree.items if isinstance(tree, Listing) else ():
        if isinstance(entry, Table):
            reader.add(entry)
        else:
            problems.error(entry.place, f"this is not {section.one}", expected=expected)
    reader.check_names()
    return Shelf(reader.records.values(), VOCABULARIES[section.name])


class _Reader(Generic[R]):
    """The records so far by name, and who owns which name."""

    def __init__(self, path: str, section: Section[R], known: Shelf[R], problems: Problems) -> None:
        self.records = {record.name: record for record in known.records}
        self._path, self._section, self._problems = path, section, problems
        self._owners: dict[Words, str] = {}
        self._read_here: dict[str, Place] = {}
        self._asked: dict[Place, str] = {}
        for record in known.records:
            self._own(record)

    def add(self, entry: Table) -> None:
        """Read one entry; where it is wrong, problems have been filed and the records stay as they were."""
        written = next((node for key, node in entry.entries if key.value == "name" and isinstance(node, Text)), None)
        if written and written.value and not VOCABULARIES[self._section.name].words(written.value):
            self._problems.error(written.place, f'"{written.value}" is not a name', expected="words")
            return
        if written and (poison := poison_in(written.value)) and not poison.care:
            self._problems.error(written.place, f"{poison.name}: {poison.harm}", expected="none of it in a beer")
            return
        before = self.records.get(self._owner(written.value)) if written else None
        if written and before and (first := self._read_here.get(before.name)):
            self._problems.error(
                written.place, f'"{written.value}" is given twice', expected=f"it once (line {first.line} has it)"
            )
            return
        self._refuse_blanks(entry)
        described = self._section.changes if before else self._section.fields
        fields = read_fields(entry, described, self._problems, self._section.one)
        record = self._changed(before, fields, entry.place) if before else self._new(fields, entry.place)
        if record is not None:
            self.records[record.name] = record
            self._read_here[record.name] = entry.place
            self._own(record)

    def _refuse_blanks(self, entry: Table) -> None:
        """A key with nothing behind it is neither a value nor left out."""
        for field in self._section.fields:
            for key, node in entry.entries:
                if key.value == field.name and isinstance(node, Text) and not node.value:
                    self._problems.error(
                        key.place, f"{field.name} is empty", expected=f"{field.name}: {field.kind.words}"
                    )

    def _new(self, fields: Fields, place: Place) -> R | None:
        values = self._values(fields, self._section.fields)
        needed = [field for field in self._section.fields if field.required or field.default]
        if any(values[attribute(field)] in (None, "") for field in needed):
            return None  # read_fields, or the reading of the value, has said why
        if not self._one_of_rivals(fields, place):
            return None
        if self._section.rivals and all(values[name] is None for name in self._rivals()):
            return None
        return self._section.record(**{**values, "source": values["source"] or self._path}, place=place)

    def _changed(self, before: R, fields: Fields, place: Place) -> R:
        stated = tuple(field for field in self._section.changes if fields.given(field.name) and field.name != "name")
        values = self._values(fields, stated)
        changes: dict[str, Any] = {name: value for name, value in values.items() if value is not None}
        rivals = self._rivals()
        if rivals & set(changes):  # what is said in one way here was said in the other before
            if not self._one_of_rivals(fields, place):
                return before
            changes |= dict.fromkeys(rivals - set(changes))
        return replace(before, **{**changes, "also": before.also + changes.get("also", ())})

    def _rivals(self) -> set[str]:
        """The attributes that say the same in several ways."""
        return {attribute(field) for field in self._section.own if field.name in self._section.rivals}

    def _one_of_rivals(self, fields: Fields, place: Place) -> bool:
        """Whether a record says once what may be said in several ways."""
        rivals = self._section.rivals
        stated = [name for name in rivals if fields.given(name)]
        if not rivals or len(stated) == 1:
            return True
        what = f"both {' and '.join(stated)}" if stated else f"neither {' nor '.join(rivals)}"
        self._problems.error(place, f"{self._section.one} with {what}", expected=f"one of {' and '.join(rivals)}")
        return False

    def _values(self, fields: Fields, wanted: tuple[Field, ...]) -> dict[str, Any]:
        """What was read, by attribute; `None` for what is absent or could not be read."""
        source = fields.words("source") or self._path
        sources = self._sources(fields)
        return {
            attribute(field): self._value(fields, field, sources.get(field.name, source))
            for field in wanted
            if field.name != "sources"
        }

    def _value(self, fields: Fields, field: Field, source: str) -> Any:
        if field.kind is LINES:
            named = tuple(node.value for node in fields.lines(field.name) if isinstance(node, Text))
            return named if field.name != "also" else self._aliases(fields)
        if field.kind is TABLE:
            return self._named(fields, field.name)
        text = fields.text(field.name)
        if field.kind.bases:
            origin = source if fields.given(field.name) else ASSUMED
            return read_spread(text, field.kind, self._problems, origin) if text else None
        words = fields.words(field.name)
        if field.kind.choices and (text is None or words != text.value):
            return None
        return words == "yes" if field.kind is YES_NO else words

    def _aliases(self, fields: Fields) -> tuple[str, ...]:
        """The other names; one that belongs to another record is a problem."""
        own = self._owner(fields.words("name"))
        found = []
        for node in fields.texts("also", "this is not a name", "a list of names"):
            if (owner := self._owner(node.value)) and owner != own:
                self._problems.error(node.place, f'"{node.value}" is a name of {owner} already')
            elif not owner:
                found.append(node.value)
        return tuple(found)

    def _named(self, fields: Fields, field: str) -> tuple[tuple[str, str], ...]:
        """Other records of the shelf by name, each with what is said of it; the names are looked up at the end."""
        table, found = fields.table(field), []
        for key, node in table.entries if table else ():
            if isinstance(node, Text):
                self._asked[key.place] = key.value
                found.append((key.value, node.value))
            else:
                self._problems.error(node.place, f"this is not a word about {key.value}", expected="words")
        return tuple(found)

    def check_names(self) -> None:
        """What stands in for another has to be on the shelf itself."""
        for place, name in self._asked.items():
            if name not in self.records:
                self._problems.unknown(place, f'the {self._section.name} have no "{name}"', name, self.records)

    def _sources(self, fields: Fields) -> dict[str, str]:
        """The sources of single figures, by field."""
        table = fields.table("sources")
        figures = [field.name for field in self._section.own if field.kind.bases]
        found: dict[str, str] = {}
        for key, node in table.entries if table else ():
            if key.value not in figures:
                what = f'{self._section.one} has no figure "{key.value}"'
                self._problems.unknown(key.place, what, key.value, figures)
            elif not isinstance(node, Text):
                self._problems.error(node.place, "this is not a source", expected="words")
            elif not fields.given(key.value):
                self._problems.error(key.place, f"a source for {key.value}, which is not given here")
            else:
                found[key.value] = node.value
        return found

    def _owner(self, name: str) -> str:
        return self._owners.get(VOCABULARIES[self._section.name].words(name), "")

    def _own(self, record: R) -> None:
        for name in (record.name, *record.also):
            self._owners[VOCABULARIES[self._section.name].words(name)] = record.name


def attribute(field: Field) -> str:
    """What a field is called in its record."""
    return field.name.replace(" ", "_").replace("-", "_")
