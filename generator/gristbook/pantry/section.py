"""A shelf of the pantry, the file that fills it, and the fields of its records."""

from dataclasses import dataclass, replace
from typing import Generic

from gristbook.pantry.records import ABOUT, NAMES, R, Spread
from gristbook.reading.fields import Field


@dataclass(frozen=True, slots=True)
class Section(Generic[R]):
    """A shelf of the pantry and the file that fills it: its name, what one of it is called, its records.

    ``rivals`` are fields that say the same in several ways, of which a record has exactly one.
    """

    name: str
    one: str
    record: type[R]
    rivals: tuple[str, ...] = ()

    @property
    def own(self) -> tuple[Field, ...]:
        """The rows of the record, those that every record has left out."""
        return tuple(
            replace(
                row,
                name=row.name or name.replace("_", " "),
                required=row.required or (kind.__origin__ is Spread and not row.default),
            )
            for name, kind in self.record.__annotations__.items()
            for row in kind.__metadata__
        )

    @property
    def fields(self) -> tuple[Field, ...]:
        """Every field that a record of this section may have."""
        return NAMES + self.own + ABOUT

    @property
    def changes(self) -> tuple[Field, ...]:
        """The same fields for a record that changes one of ours: only its name is needed."""
        return NAMES + tuple(replace(field, required=False, default="") for field in self.own + ABOUT)
