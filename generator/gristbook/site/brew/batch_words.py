"""What became of a batch, in words made from its figures."""

from __future__ import annotations

from collections.abc import Mapping

from gristbook.model.batch import Packaged
from gristbook.site.amounts import amount
from gristbook.site.dates import day
from gristbook.site.figures import Sentence, joined
from gristbook.site.words import capital
from gristbook.targets.batches.results import BatchFigures, Compared, Subject, Verdict

VERDICTS: Mapping[Verdict, str] = {
    "within": "as planned",
    "above": "higher than planned",
    "below": "lower than planned",
    "": "",
}
"""How a measured figure stands to its plan, in words; nothing where nothing was planned."""

THROUGH: Mapping[str, str] = {
    "mash": "Out of the mash",
    "kettle": "Out of the kettle",
    "fermenter": "Out of the fermenter",
}
"""What a share of extract got through, by the vessel."""

SUBJECTS: Mapping[Subject, str] = {
    "conversion": "a conversion",
    "boil-off": "a boil-off",
    "left in kettle": "a rest in the kettle",
    "left in fermenter": "a rest in the fermenter",
    "attenuation": "an attenuation",
}
"""What a brew teaches, before "of" and what it showed."""

FILLED: Mapping[str, str] = {
    "bottles": "into bottles",
    "heavy bottles": "into heavy bottles",
    "swing-top bottles": "into swing-top bottles",
    "keg": "into a keg",
}
"""Where a beer went on the day of packaging."""


def compared(figures: BatchFigures, figure: str) -> Compared | None:
    """The row of a measured figure, by its id."""
    return next((row for row in figures.compared if row.figure == figure), None)


def became(figures: BatchFigures) -> Sentence:
    """What came of it: strength, where it went and when, and from which day on it was to be drunk."""
    parts: list[Sentence] = []
    if figures.abv is not None:
        parts.append((figures.abv, " alcohol by volume, as brewed"))
    packed = figures.batch.measured.packaged
    if packed is not None:
        parts.append(_packaged(packed, figures))
    elif not figures.batch.thrown_away:
        parts.append(("nobody has written down yet that it was packaged",))
    ready = next((it for it in figures.occasions if it.what == "ready"), None)
    if ready is not None and packed is not None:
        words = "to be ready, by the plan, on " if ready.reckoned else "ready on "
        parts.append((words, day(ready.day)))
    return _sentence(parts)


def _packaged(packed: Packaged, figures: BatchFigures) -> Sentence:
    row, sugar = compared(figures, "beer-packaged"), compared(figures, "priming-sugar")
    much: Sentence = (row.measured, " ") if row else ("what there was ",)
    primed = (" with ", sugar.measured, f" of {packed.primer.called}") if sugar and packed.primer is not None else ()
    return *much, f"went {FILLED[packed.vessel]} on ", day(packed.day), *primed


def differs(row: Compared) -> bool:
    """Whether a figure came otherwise than planned, and by so much that it shows in what is printed."""
    return row.verdict in ("above", "below") and row.planned is not None and amount(row.planned) != amount(row.measured)


def said_of(row: Compared) -> str:
    """How a measured figure stands to its plan, in words; nothing where nothing was planned."""
    return VERDICTS[row.verdict if differs(row) or not row.verdict else "within"]


def differed(figures: BatchFigures) -> Sentence:
    """What came out otherwise than planned, both numbers beside each other; nothing where nothing was measured."""
    parts: list[Sentence] = []
    for verdict, words in (("above", "Higher than planned: "), ("below", "Lower than planned: ")):
        rows = [it for it in figures.compared if it.verdict == verdict and differs(it)]
        if rows:
            named = [(f"{it.name} ", it.measured, ", not ", it.planned) for it in rows if it.planned is not None]
            parts.append((words, *joined(named, "; ")))
    if any(it.verdict for it in figures.compared) and not parts:
        return ("What was measured came out as planned.",)
    return joined([(*part, ".") for part in parts], " ")


def taught(figures: BatchFigures) -> Sentence:
    """What the book learns from it, each with what this brew showed; nothing where it learns nothing."""
    heard = [it for it in figures.lessons if not it.aside]
    if not heard:
        return ()
    shown: list[Sentence] = [
        (f"{SUBJECTS[it.subject]} of ", it.value, f" by {it.yeast}" if it.yeast else "") for it in heard
    ]
    return f"It taught the book about the {heard[0].brewhouse} brewhouse: ", *joined(shown, "; "), "."


def in_short(figures: BatchFigures) -> str:
    """One line of what happened: how it began and ended against its plan, and where it went."""
    parts = []
    for name, verb in (("original-gravity", "began"), ("final-gravity", "ended")):
        row = compared(figures, name)
        if row is not None and row.verdict:
            parts.append(f"{verb} {said_of(row)}")
    packed = figures.batch.measured.packaged
    if figures.batch.thrown_away:
        parts.append("thrown away")
    elif packed is not None:
        parts.append(f"went {FILLED[packed.vessel]}")
    return capital(", ".join(parts))


def _sentence(parts: list[Sentence]) -> Sentence:
    if not parts:
        return ()
    whole = joined(parts, "; ")
    first = whole[0]
    return ((capital(first), *whole[1:]) if isinstance(first, str) else whole) + (".",)
