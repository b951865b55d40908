"""What the book learns: calibrated on made-up brewhouses whose truth is known, and hard to lead astray."""

from __future__ import annotations

import cProfile
import pstats
import random
from collections.abc import Callable
from itertools import pairwise
from math import hypot, sqrt
from statistics import NormalDist, median

import pytest
from even import even
from scipy.integrate import quad

from gristbook.problems import Place, Problems
from gristbook.sheet.value import given as noted
from gristbook.sheet.value import lineage
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.batches.learn import Learned, learned, so_far
from gristbook.targets.batches.results import Lesson
from gristbook.targets.conventions import BREW_TO_BREW
from gristbook.targets.plan import plan_book

BREWHOUSES = 2000
TAU = BREW_TO_BREW["conversion"]
SETTING_SD = 0.05 / 1.6448536  # 74 % ± 5, nine brews in ten
HERE = Place("b.md")


def setting(mean: float = 0.74, sd: float = SETTING_SD):  # type: ignore[no-untyped-def]
    return noted(mean, "fraction", "conversion", words="made up", place=Place("book.yaml", 5), ends=even(sd))


def lesson(number: float, sd: float, name: str = "one", aside: str = "") -> Lesson:
    value = noted(number, "fraction", f"conversion of {name}", words="made up", place=HERE, ends=even(sd))
    return Lesson("conversion", "hall", "", value, aside, name, HERE)


def learn_from(*lessons: Lesson) -> Learned:
    found = learned(setting(), lessons, used=True)
    assert found is not None
    return found


@pytest.mark.slow
@pytest.mark.parametrize("seed", [1, 2])
def test_nine_ranges_in_ten_hold_the_brewhouse_and_nine_in_ten_the_next_brew(seed: int) -> None:
    """2,000 made-up brewhouses, each with one to twelve brews, drawn as the model says that they differ."""
    chance = random.Random(seed)
    own_sd = sqrt(SETTING_SD**2 - TAU**2)
    holds_own = holds_next = 0
    for _ in range(BREWHOUSES):
        own = chance.gauss(0.74, own_sd)
        read = []
        for brew in range(chance.randint(1, 12)):
            sd = chance.uniform(0.01, 0.03)
            read.append(lesson(chance.gauss(chance.gauss(own, TAU), sd), sd, f"brew {brew}"))
        found = learn_from(*read)
        holds_own += found.own.low <= own <= found.own.high
        holds_next += found.value.low <= chance.gauss(own, TAU) <= found.value.high
    assert 0.88 <= holds_own / BREWHOUSES <= 0.92
    assert 0.88 <= holds_next / BREWHOUSES <= 0.92


@pytest.mark.parametrize("read", [[(0.75, 0.02)], [(0.70, 0.02), (0.72, 0.01), (0.76, 0.03)]])
def test_the_closed_form_is_the_integral(read: list[tuple[float, float]]) -> None:
    """Prior times likelihood, integrated by scipy; the distributions are the standard library's."""
    prior = NormalDist(0.74, sqrt(SETTING_SD**2 - TAU**2))

    def density(mean: float) -> float:
        likely = prior.pdf(mean)
        for number, sd in read:
            likely *= NormalDist(mean, hypot(TAU, sd)).pdf(number)
        return likely

    whole = quad(density, 0.5, 0.95, points=[0.72, 0.74])[0]
    mean = quad(lambda m: m * density(m), 0.5, 0.95, points=[0.72, 0.74])[0] / whole
    variance = quad(lambda m: (m - mean) ** 2 * density(m), 0.5, 0.95, points=[0.72, 0.74])[0] / whole
    found = learn_from(*(lesson(number, sd) for number, sd in read))
    assert found.value.number == pytest.approx(mean, abs=1e-8)
    assert found.own.spread == pytest.approx(sqrt(variance), rel=1e-6)
    assert found.value.spread == pytest.approx(sqrt(variance + TAU**2), rel=1e-6)


ORDINARY = [lesson(0.75, 0.015, "first"), lesson(0.735, 0.015, "second"), lesson(0.745, 0.015, "third")]


def test_one_odd_brew_moves_the_estimate_less_than_an_ordinary_one_could() -> None:
    """Thirty points off pulls no harder than a reading two of its spreads off, which one in twenty ordinary ones is."""
    before = learn_from(*ORDINARY).value.number
    odd = learn_from(*ORDINARY, lesson(before - 0.30, 0.015, "odd")).value.number
    two_off = learn_from(*ORDINARY, lesson(before - 2 * hypot(TAU, 0.015), 0.015, "off")).value.number
    assert abs(odd - before) <= abs(two_off - before) + 1e-12
    plain_mean = (sum(it.value.number for it in ORDINARY) + before - 0.30) / 4
    assert abs(odd - before) < abs(plain_mean - before) / 8


def test_an_odd_brew_is_named_with_what_it_still_counts_for() -> None:
    found = learn_from(*ORDINARY, lesson(0.44, 0.015, "odd"))
    assert [weighed.why != "" for weighed in found.readings] == [False, False, False, True]
    assert found.readings[-1].weight.number < 0.15


def test_what_is_set_aside_counts_for_nothing_and_says_why() -> None:
    found = learn_from(*ORDINARY, lesson(0.2, 0.01, "spilt", aside="the kettle boiled over"))
    assert found.value == learn_from(*ORDINARY).value
    assert found.readings[-1].why == "the kettle boiled over"
    assert found.brews == 3
    assert learned(setting(), [lesson(0.7, 0.01, aside="spilt")], used=True) is None


def test_the_range_narrows_with_every_ordinary_brew_and_ends_at_what_brews_differ_by() -> None:
    found = [learn_from(*(lesson(0.745, 0.015, f"{i}") for i in range(count))) for count in (1, 2, 4, 8, 200)]
    spreads = [SETTING_SD, *(it.value.spread for it in found)]
    assert all(after < before for before, after in pairwise(spreads))
    assert spreads[-1] == pytest.approx(TAU, rel=0.02)


def test_the_order_of_the_brews_does_not_matter() -> None:
    assert learn_from(*ORDINARY).value.number == pytest.approx(learn_from(*reversed(ORDINARY)).value.number, abs=1e-15)


def test_many_brews_outweigh_a_wrong_setting() -> None:
    numbers = [0.60 + 0.01 * (i % 5) for i in range(60)]
    assert learn_from(*(lesson(n, 0.015) for n in numbers)).value.number == pytest.approx(median(numbers), abs=0.01)


def test_a_setting_surer_than_brews_are_alike_still_learns() -> None:
    found = learned(setting(sd=0.001), ORDINARY, used=True)
    assert found is not None
    assert found.value.spread <= 0.001 + 1e-12


def test_what_was_learned_leads_to_the_setting_s_line_and_to_every_batch_s() -> None:
    found = learn_from(*ORDINARY)
    places = {it.place for it in lineage(found.value, until=lambda _: False) if it.place}
    assert places == {Place("book.yaml", 5), HERE}
    assert list(found.value.doubts) == ["conversion"]


def test_what_was_learned_is_doubted_as_the_setting_was() -> None:
    """Two figures of one brewhouse that rest on one doubt move together, taught or not."""
    one = noted(0.74, "fraction", "conversion", words="made up", ends=even(SETTING_SD), doubt="the crush")
    found = learned(one, ORDINARY, used=True)
    assert found is not None
    assert list(found.value.doubts) == list(found.own.doubts) == ["the crush"]


def calls_of(work: Callable[[], object]) -> int:
    profile = cProfile.Profile()
    profile.runcall(work)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_learning_costs_as_the_number_of_readings() -> None:
    read = [lesson(0.70 + 0.001 * (n % 70), 0.015, f"{n}") for n in range(80)]
    small, middle, large = (calls_of(lambda n=n: learn_from(*read[:n])) for n in (20, 40, 80))
    assert large - middle < 2.3 * (middle - small)


def test_a_plan_rests_on_as_many_values_however_many_batches_taught_it(desk) -> None:  # type: ignore[no-untyped-def]
    """What was learned ends the lineage that a plan's doubts are carried through."""
    counted = []
    for many in (2, 8):
        for day in range(many):
            desk.write(BREW, day=f"2026-03-{10 + day}")
        done = brewed(desk.book(), Problems())
        assert {it.brews for it in done.lessons.learned} == {many}
        (plan,) = plan_book(done.book, Problems())
        counted.append(len([*lineage(*plan.named.values())]))
    assert counted[0] == counted[1]


def test_the_estimate_after_some_brews_is_what_those_alone_teach() -> None:
    found = learn_from(*ORDINARY, lesson(0.2, 0.01, "spilt", aside="the kettle boiled over"))
    for heard in (1, 2, 3, 4):
        assert so_far(found, heard) == learn_from(*ORDINARY[:heard]).value
        assert so_far(found, heard).spread == learn_from(*ORDINARY[:heard]).value.spread
    assert so_far(found, 0) is found.setting


BREW = {
    "before the boil": "24.6 L at 1.0345",
    "end of the boil": "21.4 L at 1.040",
    "left in kettle": "1.4 L",
    "original gravity": "1.040",
    "final gravity": "1.0095",
}


def test_a_plan_s_gravity_narrows_as_ordinary_brews_come_in(desk) -> None:  # type: ignore[no-untyped-def]
    widths = []
    for count in range(5):
        if count:
            desk.write(BREW, day=f"2026-03-{10 + count}")
        (plan,) = plan_book(brewed(desk.book(), Problems()).book, Problems())
        gravity = plan.named["original-gravity"]
        widths.append(gravity.high - gravity.low)
    assert all(after < before for before, after in pairwise(widths))


def test_only_what_a_brewhouse_lets_learn_is_taught_and_the_rest_is_shown(desk) -> None:  # type: ignore[no-untyped-def]
    desk.write(BREW)
    book = desk.folder / "book.yaml"
    book.write_text(book.read_text("utf-8").replace("boil-off: from batches, 3 L/h ± 0.5", "boil-off: 3 L/h"), "utf-8")
    read = desk.book()
    done = brewed(read, Problems())
    before, after = read.brewhouses["hall"], done.book.brewhouses["hall"]
    assert after.boil_off is before.boil_off
    assert after.efficiency is not before.efficiency
    boil_off = done.lessons.of("hall", "boil-off")
    assert boil_off is not None
    assert not boil_off.used


def test_a_yeast_s_attenuation_is_learned_by_family_and_a_line_that_states_one_keeps_it(desk) -> None:  # type: ignore[no-untyped-def]
    desk.write(BREW)
    recipe = desk.folder / "bitter.md"
    stated = recipe.read_text("utf-8").replace("attenuative, dried", "attenuative, dried, 70 % attenuation")
    (desk.folder / "stated.md").write_text(stated, "utf-8")
    done = brewed(desk.book(), Problems())
    found = done.lessons.of("hall", "attenuation", "English ale, attenuative")
    assert found is not None
    by_slug = {recipe.place.path: recipe.yeasts[0].attenuation for recipe in done.book.recipes}
    assert by_slug["bitter.md"] == found.value
    assert by_slug["stated.md"].number == pytest.approx(0.70)


def test_a_batch_that_is_no_lesson_teaches_nothing(desk) -> None:  # type: ignore[no-untyped-def]
    desk.write(BREW, more="no lesson: the kettle boiled over\n")
    done = brewed(desk.book(), Problems())
    assert done.lessons.learned == ()
    assert done.book.brewhouses == desk.book().brewhouses


def test_a_beer_that_was_thrown_away_teaches_nothing_of_its_yeast(desk) -> None:  # type: ignore[no-untyped-def]
    desk.write(BREW, more="thrown away: it went sour\n")
    done = brewed(desk.book(), Problems())
    assert done.lessons.of("hall", "attenuation", "English ale, attenuative") is None
    assert done.lessons.of("hall", "conversion") is not None


@pytest.mark.parametrize("vessel", ["efficiency: from batches, 74 % ± 4", "mash: bag\n    conversion: from batches"])
@pytest.mark.parametrize("kept", [True, False])
def test_a_brew_teaches_how_much_the_mash_dissolves(desk, vessel: str, kept: bool) -> None:  # type: ignore[no-untyped-def]
    """The share that the plan let run off stands in the batch, or follows from the volumes that an old one has."""
    from gristbook.targets.batches.frozen import frozen_plan

    book = desk.folder / "book.yaml"
    set_so = book.read_text("utf-8").replace("efficiency: from batches, 74 % ± 4", vessel)
    book.write_text(set_so, "utf-8")
    desk.kept = frozen_plan(desk.plans()[0])
    lauter = desk.kept["lauter-efficiency"].number
    if not kept:
        del desk.kept["lauter-efficiency"], desk.kept["conversion"]
    desk.write(BREW)
    done = brewed(desk.book(), Problems())
    (figures,) = done.batches
    shown = next(it for it in figures.lessons if it.subject == "conversion")
    assert figures.mash_efficiency is not None
    assert shown.value.number == pytest.approx(figures.mash_efficiency.number / lauter, rel=1e-5)
    taught = done.book.brewhouses["hall"]
    assert (taught.efficiency, taught.conversion.number) != (None, desk.book().brewhouses["hall"].conversion.number)


def test_a_book_without_batches_learns_nothing_and_is_as_it_was(desk) -> None:  # type: ignore[no-untyped-def]
    read = desk.book()
    done = brewed(read, Problems())
    assert (done.batches, done.lessons.learned) == ((), ())
    assert done.book == read
