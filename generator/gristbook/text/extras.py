"""Lines of finings, spices and whatever else goes in, to the model."""

from __future__ import annotations

from gristbook.model.moment import BeforePackaging, BeforeTheEnd, Moment
from gristbook.model.recipe import Extra
from gristbook.reading import fields as f
from gristbook.reading.lines import Line, meant, read_line
from gristbook.reading.tree import Node
from gristbook.text.values import Desk, said
from gristbook.text.vocabulary import EXTRA, STAGES

COUNTED = ("kg", "L", "packs", "pieces", "")
"""What an amount of a fining or a spice may be kept in; a bare number counts pieces."""

WHEN = ("time", "days", "moment")
"""The properties that say when it goes in: a line has at most one."""


def read_extra(node: Node, boil_min: float, desk: Desk) -> Extra | None:
    """A fining, a spice; a name that the pantry does not know is taken as it stands. ``boil_min`` bounds its time."""
    line = read_line(node, EXTRA, desk.problems)
    if line is None:
        return None
    found = desk.pantry.fining(line.name.value).found
    record = found[0] if len(found) == 1 else None
    name = record.name if record else line.name.value
    moment = _moment(line, name, boil_min, desk)
    if moment is None and any(line.get(key) for key in WHEN):
        return None
    amount = line.amount
    if amount and amount.base not in COUNTED:
        desk.problems.error(
            amount.place, f'"{amount.text}" is not an amount', within=line.whole, expected="an amount, as 5 g"
        )
        return None
    return Extra(
        name=name,
        amount=said(amount, f"amount of {line.name.value}", unit=amount.base or "pieces") if amount else None,
        written=amount.text if amount else "",
        moment=moment,
        moment_written=next((text.value for key in WHEN if (text := line.get(key))), ""),
        purpose=record.purpose if record else "",
        allergen=record.allergen if record else "",
        place=line.place,
    )


def _moment(line: Line, name: str, boil_min: float, desk: Desk) -> Moment | None:
    """When it goes in; `None` where the line does not say, or with a problem filed."""
    said_keys = [key for key in WHEN if line.get(key)]
    if len(said_keys) > 1:
        what = f"this says {' and '.join(said_keys)}"
        desk.problems.error(line.place, what, within=line.whole, expected="one moment, or a line each")
        return None
    if minutes := desk.minutes_in_boil(line.get("time"), boil_min, line.whole):
        return BeforeTheEnd(said(minutes, f"{name}, before the end of the boil"))
    if days := desk.quantity(line.get("days"), f.DAYS, line.whole):
        return BeforePackaging(said(days, f"{name}, before packaging", unit="d", factor=1 / 1440))
    stage = line.get("moment")
    return meant(stage, STAGES) if stage else None
