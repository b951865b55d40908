"""What is worked out of an ingredient by itself, held to sums by hand and to what maltsters and handbooks print."""

from __future__ import annotations

from math import exp, log

import pytest

from gristbook.model.brings import UNKNOWN, Brings
from gristbook.model.larder import Ingredient
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.sheet.origin import Worked
from gristbook.sheet.value import Value, given, lineage
from gristbook.targets.buying.ingredients import sheet_of, usual_share
from gristbook.text.larder import read_larder

LARDER = {(it.shelf, it.name): it for it in read_larder(Pantry.load(None, Problems()))}
MODEL = "morey 1995"


def own_malt(**figures: Value) -> Ingredient:
    return Ingredient("malts", "Our malt", (), "", "", figures, {}, {"kind": "roast", "cereal": "rye"}, UNKNOWN)


def fraction(number: float) -> Value:
    return given(number, "fraction", "a share", words="a test")


def test_a_potential_is_told_in_the_trades_ways() -> None:
    """81.5 % of a malt that is 3 % water; 46.2 points and 384 to 388 L° of pure extract, as handbooks have it."""
    extract = sheet_of(LARDER["malts", "Pale ale malt"], MODEL).extract
    assert extract is not None
    assert extract.potential.number == pytest.approx(0.815 * 0.97)
    assert extract.points.number == pytest.approx(46.2 * 0.815 * 0.97, rel=0.005)
    assert 384 * 0.79 < extract.litre_degrees.number < 388 * 0.80


def test_a_coarse_grind_gives_less_by_what_the_analysis_says() -> None:
    extract = sheet_of(LARDER["malts", "Pale ale malt"], MODEL).extract
    assert extract is not None
    assert extract.coarse is not None
    assert extract.coarse_noonan is not None
    assert extract.coarse.number == pytest.approx((0.815 - 0.015) * 0.97)
    assert extract.coarse_noonan.number == pytest.approx(0.80 / 1.03 - 0.002)


def test_without_its_analysis_a_coarse_grind_is_not_guessed() -> None:
    extract = sheet_of(LARDER["malts", "Chocolate malt"], MODEL).extract
    assert extract is not None
    assert (extract.coarse, extract.coarse_noonan) == (None, None)


def test_the_colour_is_that_of_a_tenth_of_a_beer() -> None:
    """Morey's own sum: 10 % of 3.9 kg at 375 °L and the rest at 1.7 °L in 20 L, in pounds and gallons."""
    tint = sheet_of(LARDER["malts", "Chocolate malt"], MODEL).tint
    assert tint is not None
    pounds, gallons = 3.9 / 0.45359237, 20 / 3.785411784
    assert tint.srm.number == pytest.approx(1.4922 * (pounds * (37.5 + 0.9 * 1.7) / gallons) ** 0.6859, rel=1e-4)


@pytest.mark.parametrize(("model", "used"), [("daniels 1995", "morey"), ("mosher 1995", "mosher")])
def test_a_line_is_not_used_beyond_its_end(model: str, used: str) -> None:
    """Roasted barley as 10 % of 3.9 kg at 475 °L in 20 L: 80 malt colour units, and Daniels' line ends at 37."""
    tint = sheet_of(LARDER["malts", "Roasted barley"], model).tint
    assert tint is not None
    assert isinstance(tint.srm.origin, Worked)
    assert tint.srm.origin.equation.name == f"colour.srm_{used}_1995"


@pytest.mark.parametrize(
    ("model", "darker"), [("daniels 1995", "Caramel malt 80 L"), ("mosher 1995", "Chocolate malt")]
)
def test_a_straight_line_is_not_used_where_it_says_nothing(model: str, darker: str) -> None:
    pale = sheet_of(LARDER["malts", "Pilsner malt"], model).tint
    dark = sheet_of(LARDER["malts", darker], model).tint
    assert pale is not None
    assert dark is not None
    steps = [value.origin for tint in (pale, dark) for value in lineage(tint.srm)]
    used = [step.equation.name for step in steps if isinstance(step, Worked)]
    author = model.split()[0]
    assert [name for name in used if "srm" in name] == ["colour.srm_morey_1995", f"colour.srm_{author}_1995"]


def test_a_colour_in_ebc_is_read_as_one() -> None:
    """The European figure of a malt is (EBC + 1.2) / 2.65 °L, as maltsters convert."""
    known = {"extract": fraction(0.7), "moisture": fraction(0.0), "usual share": fraction(0.05)}
    in_ebc = own_malt(**known, colour=given(1000.0, "EBC malt", "colour", words="a test"))
    in_lovibond = own_malt(**known, colour=given(1001.2 / 2.65, "°L", "colour", words="a test"))
    one, other = (sheet_of(it, MODEL).tint for it in (in_ebc, in_lovibond))
    assert one is not None
    assert other is not None
    assert one.srm.number == pytest.approx(other.srm.number)


def test_hops_in_a_store_keep_what_their_variety_keeps() -> None:
    """Garetz: a rate from the six months' loss, halved for every 15 °C below 20 °C, times 0.75 in an airtight bag."""
    kept = sheet_of(LARDER["hops", "Fuggle"], MODEL).kept
    rate = -log(0.75) * 0.75
    assert [left.number for _, left in kept] == pytest.approx(
        [0.042 * exp(-rate * 2 ** ((celsius - 20) / 15)) for celsius in (20, 4, -18)]
    )


def test_a_hop_that_nobody_has_stored_loses_what_most_do() -> None:
    target = LARDER["hops", "Target"]
    assert "keeps" not in target.figures
    assert target.figures["lost in six months"].number == 0.4


def test_a_pack_of_yeast_dies_by_a_like_share_every_month() -> None:
    """Makers state that 75 to 85 % live after thirty days."""
    alive = sheet_of(LARDER["yeasts", "Saison"], MODEL).alive
    assert [share.number for _, share in alive] == pytest.approx([1, 0.8, 0.64, 0.512, 0.4096])
    assert (alive[1][1].low, alive[1][1].high) == pytest.approx((0.75, 0.85))


def test_a_malt_of_no_stated_share_has_that_of_its_kind() -> None:
    share = usual_share(own_malt(extract=fraction(0.7), moisture=fraction(0.0)))
    assert (share.number, share.low, share.high) == pytest.approx((0.04, 0.01, 0.08))


@pytest.mark.parametrize("key", LARDER, ids=lambda key: key[1])
def test_everything_has_a_sheet(key: tuple[str, str]) -> None:
    sheet = sheet_of(LARDER[key], MODEL)  # type: ignore[index]
    if sheet.tint is not None:
        assert 0 <= sheet.tint.srm.number < 40


@pytest.mark.parametrize(
    ("shelf", "name", "brings"),
    [
        ("malts", "Pale ale malt", ("barley",)),
        ("malts", "Spelt malt", ("spelt (a wheat)",)),
        ("malts", "Flaked rice", ()),
        ("sugars", "Lactose", ("milk",)),
        ("extracts", "Dried malt extract, wheat", ("barley", "wheat")),
        ("extracts", "Dried malt extract, light", ("barley",)),
        ("finings", "Isinglass", ("fish",)),
        ("finings", "Chitosan", ("crustaceans",)),
        ("finings", "Egg white", ("egg",)),
        ("hops", "Fuggle", ()),
        ("yeasts", "German wheat", ()),
    ],
)
def test_what_some_must_not_drink_is_named(shelf: str, name: str, brings: tuple[str, ...]) -> None:
    assert LARDER[shelf, name].brings == Brings(brings, open=False)  # type: ignore[index]
