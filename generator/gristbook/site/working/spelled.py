"""The working of a figure in plain text: what was given first, then each step with its numbers put in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.equations.sources import DEFINITION
from gristbook.sheet.origin import Given, Reckoned, Worked
from gristbook.sheet.value import Value, lineage, taught
from gristbook.site.amounts import SPACE
from gristbook.site.working.steps import Step, in_words, letters_of, nowhere, step_of
from gristbook.site.working.walk import Elsewhere, Group, Kettle, Walk

TAUGHT = "what the batches of this brewhouse have taught"


@dataclass(frozen=True, slots=True)
class Told:
    """A figure with its number, and how it came about: who gave it, or formula, numbers put in, and source."""

    figure: str
    details: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.figure}: {'; '.join(self.details)}"


def spelled(value: Value) -> tuple[Told, ...]:
    """All that a value rests on, each once, what goes in before what comes out; the last is the value itself.

    A constant of the method stands in the line that it is used in; what batches have taught is given and not opened,
    unless it is what was asked for, and of models that were not chosen nothing is told but how far they lie apart.
    """
    rests_on = lineage(value, until=lambda it: it is not value and taught(it))
    ends = {id(it): Elsewhere(it, TAUGHT, "") for it in rests_on if it is not value and taught(it)}
    walk = Walk(Kettle("", "", (Group("", (value,)),)), (), ends)
    formulas: dict[str, str] = {}
    return tuple(_told(step_of(it.value, walk), formulas) for it in walk.told if not it.folded)


def _told(step: Step, formulas: dict[str, str]) -> Told:
    """A step in words; a formula that was told before is not told again."""
    label = step.value.label
    return Told(_plain(f"{label} = {step.result}"), tuple(map(_plain, _details(step, label, formulas))))


def _details(step: Step, label: str, formulas: dict[str, str]) -> Iterator[str]:
    made, led = step.value.made, step.walk.ends.get(id(step.value))
    if led is not None:
        yield led.origin
    elif isinstance(made, Given):
        yield made.words + (f" ({made.place.path}:{made.place.line})" if made.place else "")
    elif isinstance(made, Reckoned):
        yield str(in_words(made, step.walk, nowhere).unescape())
        yield step.put_in[0]
    else:
        yield from _by_equation(made, step, label, formulas)


def _by_equation(made: Worked, step: Step, label: str, formulas: dict[str, str]) -> Iterator[str]:
    record, first = made.equation, made.equation.name not in formulas
    known = formulas.setdefault(record.name, label)
    yield record.formula if first else f"as {known}"
    for letter, number in zip(letters_of(made), step.put_in, strict=True):
        yield f"{letter.letter} = {number}" + (f" ({letter.words})" if first else "")
    if first:
        yield "by definition" if record.source is DEFINITION else record.source.citation


def _plain(text: str) -> str:
    return text.replace(SPACE, " ")
