"""Nothing that a person can type into a batch, or an instrument into its file, ends in a traceback."""

from __future__ import annotations

import math
import os
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gristbook.model.batch import Batch
from gristbook.problems import Problems
from gristbook.sheet.value import Value
from gristbook.targets.batches.work_out import work_out_batch
from gristbook.text.batch import read_batch
from gristbook.text.batch_vocabulary import BATCH, MEASURED
from gristbook.text.values import Desk

EXAMPLES = int(os.environ.get("GRISTBOOK_EXAMPLES", "150"))
often = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

FULL = """---
brewed: 2026-03-14
brewhouse: mill
edition: 10 L in stove
yeast: english ale yeast, attenuative
measured:
  hydrometer: 20 °C
  wort correction: 1.04 ± 0.02
  mash temperature: 66.5 °C
  first runnings: 1.070 at 30 °C
  before the boil: 25.5 L at 1.036, 60 °C
  boiled: 65 min
  end of the boil: 22 L hot at 1.042
  left in kettle: 1.5 L
  into the fermenter: 20.5 L
  original gravity: 1.041 at 24 °C
  pitched: 18 °C
  readings:
    - 2026-03-17, 1.018, 19 °C
    - 2026-03-18 07:30, 19.5 °C
    - 2026-03-20, 5.9 °Bx, 19 °C
  log: 2026-03-14.csv, time in taken, gravity in sg, temperature in "beer, °F"
  dry hopped: 2026-03-24
  final gravity: 1.011 at 20 °C
  left in fermenter: 1.2 L
  packaged: 2026-03-28, 19 L, 95 g table sugar, swing-top bottles
  warmest storage: 24 °C
ready: 2026-04-18
tasted:
  - 2026-04-20, soft, a little sweet
recipe:
  title: Quillmere Best
  batch: 20 L
  boil: 60 min
  malts:
    - 3.6 kg Pale ale malt, 3 °L
  hops:
    - 20 g Fuggle, 4.5 % alpha, dry 3 days
  carbonation: 2 volumes, primed with table sugar
  plan:
    mash efficiency: 0.74 ± 0.04 fraction
    boil volume: 24.5 L
    gravity before the boil: 1.03534 ± 0.002
    volume at the end of the boil: 21.5 ± 0.3 L
    gravity after the boil: 1.04241 ± 0.00235
    into the fermenter: 20 ± 0.3 L
    original gravity: 1.04241 ± 0.00235
    final gravity: 1.00899 ± 0.00166
    apparent attenuation: 0.782095 ± 0.038 fraction
    beer to package: 18.88 ± 0.3 L
    potential of the mashed grain: 3.03261 ± 0.0528 kg
    extract besides the mash, before the boil: 0 kg
    extract besides the mash, end of the boil: 0.1215 ± 0.00121 kg
    extract added in the fermenter: 0 kg
    boiling point: 99.775 °C
    boil-off: 3 ± 0.3 L/h
    length of the boil: 60 min
    left in the kettle: 1.5 L
    left in the fermenter: 1 L
    attenuation of the yeast: 0.76 ± 0.04 fraction
    warmest storage: 30 °C
---
Prose.
"""
CSV = 'taken,sg,"beer, °F"\n' + "".join(
    f"2026-03-{day} 0{hour}:00,{1.041 - (day - 14) / 400:.4f},{66 + hour / 10}\n"
    for day in range(14, 24)
    for hour in (6, 7)
)
letters = st.characters(codec="utf-8")
signs = st.sampled_from([*"-:#,'\"[]{}&*!|>%@`\t\n ±½°/.0123456789;=", "\u2028", "\x85", "\ufeff", "\x00", "⅓", "٣"])
sizes = st.floats(-9, 9).map(lambda power: f"{10**power:.12f}".rstrip("0").rstrip("."))
numbers = st.one_of(
    sizes, st.sampled_from(["0", "1", "-1", "1e400", "nan", "inf", "1/0", "9" * 400, "." + "0" * 400 + "1", "1.0"])
)
units = st.sampled_from(
    ["", "L", "gal", "kg", "g", "oz", "°C", "°F", "min", "h", "°P", "°Bx", "%", "SG", "± 1", "± 1 L", "fraction"]
)
days = st.dates().map(str) | st.sampled_from(["2026-03-14", "2026-03-32", "0001-01-01", "9999-12-31", "14.3.2026"])
joints = st.sampled_from([", ", " at ", " ", ",", " hot", " ± ", ": ", " in "])


def held(text: str, csv: str, folder: Path, pantry: Any) -> Batch | None:
    """No problem points out of its file, no batch rests on an error, no number of it is none."""
    (folder / "beer").mkdir(exist_ok=True)
    (folder / "beer" / "2026-03-14.csv").write_text(csv, "utf-8")
    problems = Problems()
    batch = read_batch(text, "beer/2026-03-14.md", folder, {"mill": None}, Desk(pantry, problems))
    lines = {"beer/2026-03-14.md": text.removeprefix("\ufeff").split("\n"), "beer/2026-03-14.csv": csv.split("\n")}
    for problem in problems:
        own = lines[problem.place.path]
        assert 1 <= problem.place.line <= len(own), problem
        assert 1 <= problem.place.column <= len(own[problem.place.line - 1]) + 1, problem
        assert str(problem)
    assert (batch is None) == bool(problems.errors("beer/2026-03-14.md"))
    if batch is not None:
        for value in values(batch):
            assert math.isfinite(value.number), value
            assert math.isfinite(value.spread), value
        for value in values(work_out_batch(batch)):
            assert math.isfinite(value.number), value
            assert math.isfinite(value.spread), value
    return batch


def values(thing: Any) -> list[Value]:
    """Every value in a record of records, without their lineages."""
    if isinstance(thing, Value):
        return [thing]
    if isinstance(thing, dict):
        return [value for member in thing.values() for value in values(member)]
    if isinstance(thing, tuple):
        return [value for member in thing for value in values(member)]
    if is_dataclass(thing):
        return [value for field in fields(thing) for value in values(getattr(thing, field.name))]
    return []


def test_the_batch_that_slips_are_made_in_is_a_good_one(tmp_path: Path, pantry: Any) -> None:
    batch = held(FULL, CSV, tmp_path, pantry)
    assert batch is not None
    assert batch.measured.log is not None
    assert len(batch.measured.log.times) == 20


@given(text=st.text(letters) | st.lists(st.one_of(signs, letters)).map("".join))
@often
def test_any_text_at_all(text: str, tmp_path: Path, pantry: Any) -> None:
    held(text, CSV, tmp_path, pantry)
    held(f"---\n{text}\n---\n", CSV, tmp_path, pantry)


@st.composite
def slips(draw: st.DrawFn, text: str) -> str:
    """A text with a few letters or lines dropped, put in, moved or replaced."""
    lines = text.split("\n")
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        way = draw(st.sampled_from(["drop", "twice", "swap", "sign", "letters", "number"]))
        if way == "drop":
            lines = lines[:at] + lines[at + 1 :] or [""]
        elif way == "twice":
            lines.insert(at, lines[at])
        elif way == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], lines[at]
        else:
            line = lines[at]
            start = draw(st.integers(0, len(line)))
            stop = draw(st.integers(start, min(len(line), start + 4)))
            put = {"sign": signs, "letters": st.text(letters, max_size=3), "number": numbers}[way]
            lines[at] = line[:start] + draw(put) + line[stop:]
    return "\n".join(lines)


@given(text=slips(FULL))
@settings(often, max_examples=2 * EXAMPLES)
def test_any_slip_of_the_keyboard(text: str, tmp_path: Path, pantry: Any) -> None:
    held(text, CSV, tmp_path, pantry)


@given(csv=slips(CSV) | st.text(letters) | st.lists(signs).map("".join).map(lambda rows: f"taken,sg\n{rows}"))
@often
def test_any_file_of_an_instrument(csv: str, tmp_path: Path, pantry: Any) -> None:
    held(FULL, csv.replace("\r", ""), tmp_path, pantry)


@st.composite
def said(draw: st.DrawFn) -> str:
    """Something that may stand in a line, of parts that belong there and parts that do not."""
    parts = draw(st.lists(st.one_of(st.builds("{} {}".format, numbers, units), days, st.just("1.036")), max_size=4))
    return "".join(part + draw(joints) for part in parts[:-1]) + (parts[-1] if parts else "")


@given(words=said(), shape=st.sampled_from(["{}", "\n    - {}", "{{volume: {}}}", "[{}]", "'{}'"]))
@pytest.mark.parametrize("field", [row.name for row in MEASURED])
@settings(often, max_examples=EXAMPLES // 10)
def test_anything_in_any_measurement(field: str, words: str, shape: str, tmp_path: Path, pantry: Any) -> None:
    kept = [line for line in FULL.split("\n") if not line.startswith(f"  {field}:")]
    if field == "readings":
        kept = [line for line in kept if not line.startswith("    - 2026")]
    text = "\n".join(kept).replace("measured:\n", f"measured:\n  {field}: {shape.format(words)}\n", 1)
    held(text, CSV, tmp_path, pantry)


@given(words=said() | st.text(letters))
@pytest.mark.parametrize("field", [row.name for row in BATCH if row.name not in ("recipe", "measured", "tasted")])
@settings(often, max_examples=EXAMPLES // 10)
def test_anything_in_any_field(field: str, words: str, tmp_path: Path, pantry: Any) -> None:
    kept = "\n".join(line for line in FULL.split("\n") if not line.startswith(f"{field}:"))
    held(kept.replace("---\n", f"---\n{field}: {words}\n", 1), CSV, tmp_path, pantry)


@given(words=said(), at=st.integers(0, 20))
@often
def test_anything_in_a_kept_plan(words: str, at: int, tmp_path: Path, pantry: Any) -> None:
    head, plan = FULL.split("  plan:\n")
    rows = plan.split("\n")
    rows[at] = f"{rows[at].partition(': ')[0]}: {words}"
    held(f"{head}  plan:\n" + "\n".join(rows), CSV, tmp_path, pantry)
