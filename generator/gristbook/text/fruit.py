"""Lines of fruit and juice, which the reader of sugars takes for sugars with water, acid and pulp."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import replace
from typing import Any

from gristbook.model.amount import Weight
from gristbook.model.fruit import Flesh
from gristbook.model.moment import BeforeTheEnd, Moment, Stage
from gristbook.model.recipe import Sugar
from gristbook.pantry.lookup import Shelf
from gristbook.pantry.records import Fruit, Spread
from gristbook.problems import Problems
from gristbook.reading.lines import Line, meant
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.text.allergens import brings_of, on_line
from gristbook.text.parts.extras import STAGES
from gristbook.text.values import Desk, by_default, from_pantry, prepared, said, timed

SECTION = "fruit"
PUREE = re.compile(r"\b(?:pur[ée]+e?d?|pulp|mashed)\b", re.IGNORECASE)
PUREE_G_PER_L = Spread(1040, 1020, 1070, "g/L", "typical of a purée, from memory")


def is_fruit(node: Node, shelf: Shelf[Any], desk: Desk) -> bool:
    """Whether a line of another section, whose own ``shelf`` does not have its name, is of a fruit of the pantry."""
    if not isinstance(node, Text) or not desk.pantry.fruits.shares_a_word(node.value):
        return False
    with suppress(Unreadable):
        name = replace(desk, problems=Problems()).line(node, SECTION).name.value
        return bool(desk.pantry.fruits.look_up(name).found) and not shelf.look_up(name).found
    return False


def read_fruit(node: Node, boil_min: float, desk: Desk) -> Sugar:
    """A line of fruit or juice; `Unreadable` where it cannot be read."""
    line = desk.line(node, SECTION)
    found = desk.only(line, desk.pantry.fruits.look_up(line.name.value), "fruit")
    record = found.record
    flesh = 1.0
    if line.get("stones"):
        if record.stones is None:
            raise line.error(f"{record.name} have no stones that are reckoned", at=line.get("stones"))
        flesh -= record.stones.typical
    amount, moment = _weight(line, record), _moment(line, record.name, boil_min)
    told = line.quantity("sugar")

    def share(spread: Spread, what: str) -> Any:
        return from_pantry(spread, f"{what} {record.name}", factor=flesh)

    return Sugar(
        name=record.name,
        amount=amount,
        extract_dry=said(told, f"sugar of {record.name}") if told else share(record.sugar, "sugar of"),
        moisture=by_default(0.0, "fraction", f"moisture of {record.name}", "its sugar is told as it is weighed"),
        colour=by_default(0.0, "°L", f"colour of {record.name}", "the colour of fruit is not reckoned"),
        kind=record.kind,
        from_malt=False,
        attenuation=from_pantry(record.fermentable, f"share of the sugar of {record.name} that ferments"),
        usual_attenuation=(record.fermentable.low, record.fermentable.high),
        moment=moment,
        label="",
        place=line.place,
        brings=on_line(line, brings_of(record, desk.pantry), desk),
        own_words=found.own_words,
        note=line.note,
        flesh=Flesh(
            share(record.water, "water in"),
            share(record.acid, "acid in"),
            record.sour_of,
            record.care,
            ", ".join([*(["with stones"] if flesh < 1 else []), *prepared(line)]),
        ),
    )


def _weight(line: Line, record: Fruit) -> Weight:
    amount, expected = line.amount, "a weight, as 1 kg, or a volume, as 2 L"
    if amount is None:
        raise line.error(f"no amount of {line.name.value}", expected)
    if amount.base == "kg":
        return Weight(said(amount, f"weight of {record.name}"))
    if amount.base != "L":
        raise line.error(f'"{amount.text}" is not a weight', expected, at=amount)
    density = PUREE_G_PER_L if PUREE.search(line.name.value) else record.density
    if density is None:
        raise line.error("nobody says what a litre of it weighs", "a weight, as 1 kg")
    weighed = f"weighed by its density, {density.typical:g} g/L, {density.source}; the recipe"
    label = f"weight of {record.name}"
    return Weight(said(amount, label, unit="kg", factor=density.typical / 1000, origin=weighed))


def _moment(line: Line, name: str, boil_min: float) -> Moment:
    """When it goes in; where nobody says, into the fermenter."""
    moment = timed(line, boil_min, f"{name}, minutes before the end", f"{name}, days in the beer")
    stage = meant(text, STAGES) if (text := line.get("moment")) else None
    if isinstance(moment, BeforeTheEnd) and (line.get("days") or stage not in (None, Stage.KETTLE)):
        raise line.error("both a time in the boil and the fermenter", at=line.get("time"))
    if moment is None and (line.get("time") or line.get("days")):
        raise Unreadable
    return moment or stage or Stage.FERMENTER
