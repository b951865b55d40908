"""Lines of fruit and juice, which the reader of sugars takes for sugars with water, acid and pulp."""

from __future__ import annotations

import re
from typing import Any

from gristbook.model.amount import Weight
from gristbook.model.fruit import Flesh
from gristbook.model.moment import BeforeTheEnd, Moment, Stage
from gristbook.model.recipe import Sugar
from gristbook.pantry.records import Fruit, Spread
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node
from gristbook.text.allergens import brings_of, on_line
from gristbook.text.brew import Brew
from gristbook.text.parts.extras import STAGES
from gristbook.text.values import Desk, by_default, from_pantry, prepared, said

SECTION = "fruit"
PUREE = re.compile(r"\b(?:pur[ée]+e?d?|pulp|mashed)\b", re.IGNORECASE)
PUREE_G_PER_L = Spread(1040, 1020, 1070, "g/L", "typical of a purée, from memory")


def read_fruit(node: Node, brew: Brew, desk: Desk) -> Sugar:
    """A line of fruit or juice; `Unreadable` where it cannot be read."""
    line = desk.line(node, SECTION)
    found = desk.only(line, desk.pantry.fruits.look_up(line.name.value), "fruit")
    record = found.record
    flesh = 1.0
    if line.get("stones"):
        if record.stones is None:
            raise line.error(f"{record.name} have no stones that are reckoned", at=line.get("stones"))
        flesh -= record.stones.typical
    amount, moment = _weight(line, record), _moment(line, record.name, brew)
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


def _moment(line: Line, name: str, brew: Brew) -> Moment:
    """When it goes in; where nobody says, into the fermenter."""
    moment = brew.timed(line, f"{name}, minutes before the end", f"{name}, days in the beer")
    stage = meant(text, STAGES) if (text := line.get("moment")) else None
    if stage is Stage.MASH:
        line.warning("all its sugar is taken to run off into the kettle", "in the kettle", at=text)
        stage = Stage.KETTLE
    if isinstance(moment, BeforeTheEnd) and (line.get("days") or stage not in (None, Stage.KETTLE)):
        raise line.error("both a time in the boil and the fermenter", at=line.get("time"))
    if moment is None and (line.get("time") or line.get("days")):
        raise Unreadable
    return moment or stage or Stage.FERMENTER
