"""Every amount that a reader is to measure is one that a kitchen can, and rounding moves no figure far in its range."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
import the_demo
from bs4 import BeautifulSoup

from gristbook.sheet.value import Value
from gristbook.site.amounts import SPACE, amount
from gristbook.site.scales import FINE as FINE_ROWS
from gristbook.site.scales import RULES
from gristbook.site.working.walk import values_in
from gristbook.targets.method.whole import steps

Steps = tuple[tuple[float, float], ...]
STEPS: dict[str, Steps] = {
    "kg": ((0, 0.01), (10, 0.05)),
    "g": ((0, 0.01), (0.5, 0.1), (2, 0.5), (10, 1)),
    "lb oz": ((0, 0.5), (64, 1)),
    "oz": ((0, 0.05), (10, 0.1)),
    "L": ((0, 0.1),),
    "mL": ((0, 0.1), (2, 0.5), (10, 1), (100, 5)),
    "gal": ((0, 0.05), (10, 0.1)),
    "qt": ((0, 0.1),),
    "fl oz": ((0, 0.5),),
    "tsp": ((0, 0.25),),
}
"""From which number on, what step a kitchen's scale, jug or spoon has: common practice, no source."""
FINE: dict[str, Steps] = {
    "g": ((0, 0.01), (1, 0.1), (10, 0.5)),
    "mL": ((0, 0.1), (5, 0.5), (10, 1), (100, 5)),
}
"""What a pocket scale and a syringe have, for salts and acids."""
SALTS = re.compile("gypsum|chloride|sulfate|sulfite|acid|chalk|soda|bicarbonate|lime|salt", re.IGNORECASE)
WORDS = "|".join(sorted(set(STEPS) - {"lb oz"}, key=len, reverse=True))
PRINTED = re.compile(
    rf"(?<![\d.·^])(?:(?P<lb>\d+){SPACE}lb )?(?P<number>\d+(?:\.\d+)?){SPACE}(?P<unit>{WORDS})(?![\w/·²³]| in 100)"
)
WRITTEN = re.compile(r"<pre\b.*?</pre>|<code\b.*?</code>|<script\b.*?</script>", re.DOTALL)


def on_a_step(number: float, unit: str, steps: dict[str, Steps] = STEPS) -> bool:
    """Whether a number is so many steps; at a turn those below it serve too, as for the end of a range."""
    at = {next(step for least, step in reversed(steps[unit]) if number * near >= least) for near in (1.0, 0.5)}
    return any(abs(number / step - round(number / step)) < 1e-6 for step in at)


def can(number: float, unit: str, around: str) -> bool:
    return on_a_step(number, unit) or (unit in FINE and bool(SALTS.search(around)) and on_a_step(number, unit, FINE))


def read(page: bytes) -> Iterator[tuple[str, float, str]]:
    """The amounts that our own macros print on a page, with the words around them, but for the rates."""
    soup = BeautifulSoup(WRITTEN.sub("", page.decode()), "lxml")
    for it in soup.select(".figure, .amount"):
        around = it.find_parent(["tr", "li", "p", "div"]) or it
        for part in it.select(".us, .metric") or [it]:
            for found in PRINTED.finditer(part.get_text()):
                number = 16 * float(found["lb"] or 0) + float(found["number"])
                yield around.get_text(), number, "lb oz" if found["lb"] else found["unit"]


AUTHOR = " ".join(path.read_text("utf-8") for path in the_demo.DEMO.rglob("*.md"))
"""What the author of the demo wrote: his own readings stay as they are."""


def back(text: str, value: Value) -> tuple[float, float]:
    """What a printed text says, in the kept unit, and half of the step of a kitchen that it is told in."""
    found = re.fullmatch(rf"(?:(\d+){SPACE}lb ?)?(−?[\d.]+)?(?:{SPACE}(.+))?", text)
    assert found, text
    pounds, digits, unit = found.groups()
    number = float((digits or "0").replace("−", "-"))
    if pounds:
        ounce = 28.349523125 if value.unit == "g" else 0.028349523125
        return (16 * float(pounds) + number) * ounce, ounce / (2 if float(pounds) >= 4 else 4)
    rule = RULES[value.unit]
    rows = FINE_ROWS.get(value.unit, rule.metric) if value.metric else (*rule.metric, *rule.us)
    row = next(row for row in rows if row.unit in (unit or "", f"{unit}s"))
    row = next((it for it in rows if it.unit == row.unit and number * it.size >= it.least * 0.99), row)
    return (number - row.zero) * row.size, row.step * row.size / 2


def worked(path: str) -> bool:
    """Whether a page shows a working, with more digits on purpose."""
    return path.endswith("working.html")


@pytest.mark.parametrize(
    ("number", "unit", "around", "measured"),
    [
        *((47.3, "mL", "water", False), (333.0, "mL", "water", False), (125.0, "mL", "water", True)),
        *((4.7, "g", "Irish moss", False), (4.5, "g", "Irish moss", True), (4.7, "g", "Gypsum", True)),
        *((5.17, "kg", "malt", True), (0.88, "oz", "hops", False), (0.9, "oz", "hops", True), (5.03, "gal", "", False)),
        *((0.6, "tsp", "", False), (67.0, "lb oz", "", True), (67.3, "lb oz", "", False), (2.05, "L", "", False)),
    ],
)
def test_the_table_knows_a_kitchen(number: float, unit: str, around: str, measured: bool) -> None:
    assert can(number, unit, around) == measured


def test_every_amount_on_every_page_is_one_that_a_kitchen_can_measure(demo) -> None:  # type: ignore[no-untyped-def]
    off, seen = set(), 0
    for path, page in demo.files.items():
        if path.endswith(".html") and not worked(path):
            for around, number, unit in read(page):
                seen += 1
                if not can(number, unit, around) and f"{number:g} {unit}" not in AUTHOR:
                    off.add((path, around[:80], number, unit))
    assert seen > 10_000
    assert sorted(off) == []


@pytest.mark.parametrize("slug", the_demo.SLUGS)
def test_rounding_moves_no_figure_by_more_than_a_tenth_of_its_range(slug: str) -> None:
    """Gravities apart. What a kitchen measures may move by half of its step, and nothing is told in more than three
    digits for its range.
    """
    plan, tried = the_demo.plans()[slug], 0
    for value in {id(it): it for it in (*plan.sheet.values(), *values_in(steps(plan)), *values_in(plan.cost))}.values():
        if not value.doubts or value.unit in ("SG", "packs"):  # a pack is bought whole
            continue
        (low, high), shown = value.ends, amount(value)
        for text in filter(None, (shown.metric, shown.us)):
            number, half = back(text, value)
            most = max((high - low) / 10, half or abs(value.number) / 200)
            assert abs(number - value.number) <= most * (1 + 1e-6), (text, value, low, high)
            tried += 1
    assert tried > 50
