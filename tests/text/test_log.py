"""A log is read as its instrument wrote it; what may mean two things is asked about and never guessed."""

from __future__ import annotations

import math
import time
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from gristbook.model.batch import Log
from gristbook.problems import Place, Problems
from gristbook.reading.lines import readable
from gristbook.reading.tree import Text
from gristbook.text.log import read_log

T = datetime(2026, 3, 14, 18, 30)


def read(folder: Path, text: str | bytes, more: str = "") -> tuple[Log | None, list[str]]:
    """A log of that text, by a batch's line `a.csv` and whatever more it says."""
    (folder / "beer").mkdir(exist_ok=True)
    (folder / "beer" / "a.csv").write_bytes(text.encode() if isinstance(text, str) else text)
    problems = Problems()
    line = Text(", ".join(["a.csv", *([more] if more else [])]), Place("beer/2026-03-14.md", 7, 8))
    log = next(readable([line], lambda node: read_log(node, folder, "beer", problems)), None)
    return log, [str(problem) for problem in problems]


USUAL = "time,gravity,temperature\n2026-03-14 18:30,1.041,19.5\n2026-03-15 18:30,1.030,20\n"


def test_times_gravities_and_temperatures_are_read(tmp_path: Path) -> None:
    log, problems = read(tmp_path, USUAL)
    assert problems == []
    assert log is not None
    assert log == Log("a.csv", (T, T + timedelta(days=1)), (1.041, 1.03), (19.5, 20.0), log.place)


@pytest.mark.parametrize(
    ("text", "more"),
    [
        ("time;gravity;temperature\n14.03.2026 18:30;1,041;19,5\n15.03.2026 18:30;1,030;20,0\n", "day first"),
        ("time;gravity;temperature\n14.3.26 18:30;1,041;19,5\n15.3.26 18:30;1,030;20,0\n", "day first"),
        ("time\tgravity\ttemperature\n2026/03/14 18:30\t1.041\t19.5\n2026/03/15 18:30\t1.03\t20\n", ""),
        ("time\tgravity\ttemperature\n14/03/2026 18:30:00\t1,041\t19,5\n15/03/2026 18:30:00\t1,03\t20\n", "day first"),
        ('"time","gravity","temperature"\n"3/14/2026 6:30 PM","1.041","19.5"\n"3/15/2026 6:30 PM","1.03","20"\n',
         "month first"),
        ("Taken at,SG,Beer temp (°F)\n2026-03-14T18:30:00,1.041,67.1\n2026-03-15T18:30:00,1.03,68\n",
         "time in taken at, gravity in sg, temperature in beer temp (°F)"),
        ("taken,sg,beer\n2026-03-14T18:30:00Z,1.041,67.1\n2026-03-15T18:30:00Z,1.03,68\n",
         'time in taken, gravity in "sg", temperature in beer, °F'),
        ('name,"taken, UTC",gravity,temperature\nx,1773513000,1.041,19.5\nx,1773599400,1.03,20\n',
         'time in "taken, UTC"'),
        ("name,time,gravity,temperature\nx,1773513000000,1.041,19.5\nx,1773599400000,1.03,20\n", ""),
        (f"Cellar log no. 7\nserial 12345\n\n{USUAL}\n\n", ""),
        ("\ufeff" + USUAL.replace("\n", "\r\n"), ""),
        ("time,gravity,temperature\n2026-03-15 18:30,1.030,20\n2026-03-14 18:30,1.041,19.5\n", ""),
        ("Date,Time,Gravity,Temperature\n2026-03-14,18:30,1.041,19.5\n2026-03-15,18:30:00,1.03,20\n", ""),
        ("on;at;gravity;temperature\n14.03.2026;18:30;1,041;19,5\n15.03.2026;6:30 PM;1,03;20\n",
         "day in on, time in at, day first"),
        ("brew,time,gravity,temperature\n14,2026-03-14 18:30,1.041,19.5\n15,2026-03-14 18:30,1.07,8\n"
         "14,2026-03-15 18:30,1.03,20\n", "only 14 in brew"),
    ],
)  # fmt: skip
def test_the_shapes_of_instruments_are_all_read_alike(tmp_path: Path, text: str, more: str) -> None:
    log, problems = read(tmp_path, text, more)
    assert problems == []
    assert log is not None
    assert log.times == (T, T + timedelta(days=1))
    assert log.gravities == pytest.approx((1.041, 1.03))
    assert log.temperatures == pytest.approx((19.5, 20.0))


@pytest.mark.parametrize(("heading", "more"), [("gravity (°P)", "gravity in gravity (°P)"), ("gravity", "°P")])
def test_a_log_in_degrees_plato_keeps_its_scale(tmp_path: Path, heading: str, more: str) -> None:
    log, problems = read(tmp_path, f"date,{heading}\n2026-03-14,10.2\n2026-03-15,52\n", more)
    assert problems == [
        "beer/a.csv:3:1: warning: 1 of 2 rows cannot be read and are left out; the first: 52 is no gravity (°P)"
    ]
    assert log is not None
    assert (log.scale, log.gravities, log.times) == ("°P", (10.2,), (datetime(2026, 3, 14, 12),))


def test_what_is_missing_in_a_row_is_missing_and_not_nothing(tmp_path: Path) -> None:
    log, problems = read(tmp_path, "time,gravity,temperature\n2026-03-14 18:30,,19.5\n2026-03-15 18:30,1.03,\n")
    assert problems == []
    assert log is not None
    assert math.isnan(log.gravities[0])
    assert math.isnan(log.temperatures[1])
    assert (log.gravities[1], log.temperatures[0]) == (1.03, 19.5)


def test_a_log_of_temperatures_alone_has_no_gravities(tmp_path: Path) -> None:
    log, problems = read(tmp_path, "time,temperature\n2026-03-14 18:30,19.5\n")
    assert problems == []
    assert log is not None
    assert all(map(math.isnan, log.gravities))


@pytest.mark.parametrize(
    ("text", "more", "said"),
    [
        ("time,gravity\n04/03/2026 18:30,1.041\n", "",
         'beer/a.csv:2:1: error: nothing says which number of "04/03/2026 18:30" is the day; '
         'expected "day first" or "month first" in the batch\'s log'),
        ("time,gravity\n14/03/2026 18:30,1.041\n", "",
         'beer/a.csv:2:1: error: nothing says which number of "14/03/2026 18:30" is the day; '
         'expected "day first" or "month first" in the batch\'s log'),
        ("time,gravity\n14/03/2026 18:30,1.041\n", "month first",
         'beer/a.csv:2:1: error: 1 of 1 rows cannot be read and are left out; '
         'the first: "14/03/2026 18:30" is no day and time'),
        ("when,gravity\n2026-03-14,1.041\n", "",
         'beer/2026-03-14.md:7:8: error: no column "time" in a.csv; '
         'expected time in one of "when", "gravity"'),
        ("brew,time,gravity\n14,2026-03-14 18:30,1.041\n15,2026-03-14 18:30,1.07\n", "only 16 in brew",
         'beer/2026-03-14.md:7:20: error: no row is of "16" in "a.csv, only 16 in brew"; expected "14", "15"'),
        ("time,gravity\n2026-03-14 18:30,1.041\n", "only 16 in brew",
         'beer/2026-03-14.md:7:20: error: no column "brew" in a.csv in "a.csv, only 16 in brew"; '
         'expected brew in one of "time", "gravity"'),
        ("time,sg\n2026-03-14,1.041\n", "",
         'beer/2026-03-14.md:7:8: error: no column of gravities or of temperatures in a.csv; '
         'expected gravity in one of "time", "sg"'),
        ("", "", 'beer/2026-03-14.md:7:8: error: no column "time" in a.csv; expected a line of headings'),
        ("time,gravity\n", "", "beer/a.csv:1:1: error: no reading in this file"),
        (b"time,gravity,\xb0C\n", "", "beer/a.csv:1:1: error: this file is not text; expected plain UTF-8"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told_and_never_guessed(tmp_path: Path, text: str | bytes, more: str, said: str) -> None:
    assert read(tmp_path, text, more) == (None, [said])


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("2026-03-16 18:30,1.041", "too short"),
        ("2026-03-16 18:30,1,041,19,5", "more cells than headings"),
        ("2026-03-16 18:30,,", "nothing was read"),
        ("2026-03-16 18:30,0.000,19", "0 is no gravity (SG)"),
        ("2026-03-16 18:30,1041,19", "1041 is no gravity (SG)"),
        ("2026-03-16 18:30,inf,19", "inf is no gravity (SG)"),
        ("2026-03-16 18:30,1.02,85", "85 °C is no fermenter"),
        ("2026-03-16 18:30,1.02,cold", '"cold" is no number'),
        ('2026-03-16 18:30,"1,02",19', '"1,02" is no number'),
        ("26-03-14 18:30,1.02,19", '"26-03-14 18:30" is no time'),
        ("yesterday,1.02,19", '"yesterday" is no time'),
        ("2026-02-30 18:30,1.02,19", '"2026-02-30 18:30" is no time'),
        ("2026-02-28 25:30,1.02,19", '"2026-02-28 25:30" is no time'),
        (",1.02,19", '"" is no time'),
        ("99999999999999,1.02,19", '"99999999999999" is no time'),
    ],
)
def test_rows_that_cannot_be_are_left_out_and_told_once(tmp_path: Path, row: str, why: str) -> None:
    log, problems = read(tmp_path, f"{USUAL}{row}\n{USUAL.splitlines()[1]}\n{row}\n")
    assert log is not None
    assert len(log.times) == 3
    assert problems == [f"beer/a.csv:4:1: warning: 2 of 5 rows cannot be read and are left out; the first: {why}"]


def test_a_quotation_mark_that_is_never_closed_leaves_the_good_rows(tmp_path: Path) -> None:
    log, problems = read(tmp_path, USUAL + '"2026-03-16 18:30,1.02,19\n2026-03-17 18:30,1.02,19\n')
    assert log is not None
    assert len(log.times) == 2
    assert len(problems) == 1


def test_warm_beer_without_a_unit_is_asked_about(tmp_path: Path) -> None:
    cold_room = "time,temperature\n" + "".join(f"2026-03-{day} 08:00,{38 + day / 10:.1f}\n" for day in range(14, 24))
    log, problems = read(tmp_path, cold_room)
    assert log is not None
    assert problems == [
        'beer/2026-03-14.md:7:8: warning: most of a.csv is warmer than 36 °C; expected "°F" here, or "°C"'
    ]
    assert read(tmp_path, cold_room, "°C")[1] == []
    in_fahrenheit, problems = read(tmp_path, cold_room, "°F")
    assert in_fahrenheit is not None
    assert problems == []
    assert in_fahrenheit.temperatures[0] == pytest.approx((39.4 - 32) / 1.8)


def test_ten_thousand_rows_are_read_in_a_third_of_a_second(tmp_path: Path) -> None:
    rows = "".join(
        f"{(T + timedelta(minutes=2 * row)):%d/%m/%Y %H:%M:%S},{1.041 - row / 400000:.4f},{19 + row % 7 / 10:.1f}\n"
        for row in range(10000)
    )
    read(tmp_path, USUAL)
    began = time.process_time()
    log, problems = read(tmp_path, "time,gravity,temperature\n" + rows, "day first")
    took = time.process_time() - began
    assert problems == []
    assert log is not None
    assert len(log.times) == 10000
    assert log.times[-1] == T + timedelta(minutes=2 * 9999)
    assert took < 0.3
