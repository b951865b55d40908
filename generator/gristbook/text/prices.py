"""The author's `pantry/prices.yaml`: a name and what so much of it costs, as `2.20 / kg` or `4.50 / 100 g`."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from gristbook.model.price import Prices
from gristbook.pantry.lookup import Match, nearest_of
from gristbook.pantry.pantry import own_text
from gristbook.problems import Place
from gristbook.reading.quantity import NUMBER, Quantity, any_quantity
from gristbook.reading.tree import Listing, Node, Table, Text, read_yaml
from gristbook.sheet.value import Value
from gristbook.text.values import SHELVES, Desk, said

_PRICE = re.compile(rf"(?P<money>{NUMBER})\s*(?:/|for|a|per)\s*(?P<amount>\S.*)")
EXPECTED = "something like 2.20 / kg, 4.50 / 100 g or 7.00 / pack"
NONE = "no amount"
UNITS = {"kg": "money/kg", "L": "money/L", "packs": "money each", "pieces": "money each"}
"""What things are sold by, and the unit of the price."""


def read_prices(folder: Path, currency: str, desk: Desk, shown_as: str = "pantry") -> Prices | None:
    """The prices of a book; `None` where its author states none. What is wrong in them is a problem of that file."""
    file, path = folder / "prices.yaml", f"{shown_as}/prices.yaml"
    if not file.is_file():
        return None
    source = own_text(file, path, desk.problems)
    tree = read_yaml(source, path, desk.problems) if source is not None else None
    if tree is None:
        return None
    if not isinstance(tree, Table):
        desk.problems.error(tree.place, "the prices are not a table", expected=f"a name, a colon, {EXPECTED}")
        return None
    if not currency:
        desk.problems.error(Place(path), "prices in no money", expected="currency: … in book.yaml")
        return None
    found: dict[str, dict[str, Value]] = {}
    for key, node in tree.entries:
        name = _name(key, desk)
        for written in _lines(node, key, desk) if name else ():
            base_and_price = _price(written, name, currency, desk)
            if base_and_price is None:
                continue
            base, price = base_and_price
            if base in found.setdefault(name.casefold(), {}):
                desk.problems.error(written.place, f"a second price of {name} by {base}", expected="one")
            found[name.casefold()][base] = price
    return Prices(currency, found)


def _lines(node: Node, key: Text, desk: Desk) -> Iterator[Text]:
    """One price, or several by different measures."""
    for item in node.items if isinstance(node, Listing) else (node,):
        if isinstance(item, Text) and item.value:
            yield item
        else:
            desk.problems.error(item.place, f"no price of {key.value}", expected=EXPECTED)


def _name(key: Text, desk: Desk) -> str:
    """The pantry's name of what is priced; one that no shelf has is kept as it stands, with a word about it."""
    matches: list[Match[Any]] = [getattr(desk.pantry, shelf).look_up(key.value) for shelf, _ in SHELVES]
    records = {record.name: record for match in matches for record in match.found}
    written = key.value.casefold()
    exact = {it.name for it in records.values() if written in map(str.casefold, (it.name, *it.also))}
    usual = {match.usual.name for match in matches if match.usual}
    found = exact or usual or set(records)
    if usual and not exact:
        others = " or ".join(sorted(records))
        desk.problems.warning(key.place, f'"{key.value}" may be several: {min(usual)} is taken', expected=others)
    if len(found) > 1:
        desk.problems.error(key.place, f'"{key.value}" may be several', expected=" or ".join(sorted(found)))
        return ""
    if not found:
        near, what = nearest_of(key.value, matches), f'nothing in the pantry is called "{key.value}"'
        expected = "" if near else "the name of an ingredient"
        desk.problems.warning(key.place, what, expected=expected, suggestion=near)
    return next(iter(found), key.value)


def _price(written: Text, name: str, currency: str, desk: Desk) -> tuple[str, Value] | None:
    """What a thing is sold by and its price; `None` with a problem filed where it cannot be read."""
    match = _PRICE.fullmatch(written.value)
    if match is None:
        desk.problems.error(written.place, f'"{written.value}" is not a price', expected=EXPECTED)
        return None
    money = any_quantity(written.part(0, match.end("money")), desk.problems, NONE, EXPECTED, written.value)
    amount = _amount(written, match, desk)
    if money is None or amount is None:
        return None
    if amount.base not in UNITS or amount.number <= 0:
        desk.problems.error(amount.place, f'nothing is sold by "{amount.text}"', expected=EXPECTED)
        return None
    each = Quantity(money.number / amount.number, UNITS[amount.base], written.value, written.place)
    return amount.base, said(each, f"price of {name}, in {currency}", origin="the author")


def _amount(written: Text, match: re.Match[str], desk: Desk) -> Quantity | None:
    """So much of a thing: a unit by itself is one of it."""
    text = written.part(match.start("amount"))
    one = text if re.match(NUMBER, text.value) else Text(f"1 {text.value}", text.place, exact=False)
    return any_quantity(one, desk.problems, NONE, EXPECTED, written.value)
