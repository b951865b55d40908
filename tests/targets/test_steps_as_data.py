"""The rests of the mash and the steps of the ferment as data for other programs: role, ramp, pressure, as written."""

import json
from collections.abc import Callable
from typing import Any

from gristbook.site.book.feeds import figures_json

RECIPE = """---
title: A lager
batch: 20 L
malts: 4.5 kg pilsner malt
hops: 28 g Saaz, 3.5 % alpha, 60 min
yeast: 3 packs bohemian lager yeast
mash:
  - protein rest, 52 °C, 15 min
  - saccharification, 66 °C, 60 min, heat
  - mash out, 76 °C, 10 min, decoction
ferment:
  - 10 °C, 10 days
  - diacetyl rest, ramp from 10 to 16 °C over 4 days, 0.8 bar
  - cold crash, 1 °C, 3 days
carbonation: 2.4 volumes, keg
---
"""


def test_every_step_says_its_role_where_it_ends_and_under_what_pressure(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(RECIPE)
    assert outcome.plan is not None, outcome.problems
    data = json.loads(figures_json(outcome.plan))
    assert [(it["role"], it["temperature"]["value"], it["time"]["value"], it["by"]) for it in data["mash"]] == [
        ("protein rest", 52, 15, "infusion"),
        ("saccharification rest", 66, 60, "heat"),
        ("mash out", 76, 10, "decoction"),
    ]
    crash = {"temperature": {"value": 1.0, "unit": "°C"}, "to": None, "time": {"value": 3.0, "unit": "d"}}
    first, rest, last = data["ferment"]
    assert (first["role"], first["temperature"]["value"], first["pressure"]) == (None, 10, None)
    assert (rest["role"], rest["temperature"]["value"], rest["to"]["value"]) == ("diacetyl rest", 10, 16)
    assert (rest["way"], rest["pressure"]) == ("ramp", {"value": 0.8, "unit": "bar"})
    assert {**last, **crash, "role": "cold crash"} == last
