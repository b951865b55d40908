"""What brewers call an addition of hops, in figures by hand: a whirlpool, flameout, grams in a litre, wet hops."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.site.words import hop_words, kept_words
from gristbook.targets.method.whole import steps


@pytest.fixture
def hopped(trial: Callable[..., Any]) -> Callable[..., Any]:
    return lambda *lines: trial(hops=lines)


@pytest.fixture
def brings(hopped: Callable[..., Any]) -> Callable[[str], Any]:
    """The addition of a beer with one line of hops."""
    return lambda line: hopped(line).figures.bitterness.hops[0]


@pytest.mark.parametrize(
    ("line", "same"),
    [
        ("30 g Fuggle, 5 %, whirlpool 20 min at 80 °C", "30 g Fuggle, 5 %, stand 20 min at 80 °C"),
        ("30 g Fuggle, 5 %, whirlpool, 20 min, 176 °F", "30 g Fuggle, 5 %, stand 20 min at 80 °C"),
        ("30 g Fuggle, 5 %, hop stand", "30 g Fuggle, 5 %, stand 20 min at 80 °C"),
        ("30 g Fuggle, 5 %, at 80 °C for 20 min", "30 g Fuggle, 5 %, stand 20 min at 80 °C"),
        ("30 g Fuggle, 5 %, late addition 10 min", "30 g Fuggle, 5 %, 10 min"),
        ("30 g Fuggle, 5 %, FWH", "30 g Fuggle, 5 %, first wort"),
        ("2 g/L Fuggle, 5 %, 60 min", "40 g Fuggle, 5 %, 60 min"),  # 2 g in each of 20 L
        ("0.4 oz/gal Fuggle, 5 %, 60 min", "59.913 g Fuggle, 5 %, 60 min"),  # 0.4 · 28.3495 g / 3.7854 L · 20 L
        ("10 mL Fuggle extract, 50 %, 60 min", "10 g Fuggle, 50 % alpha, extract, 60 min"),
        ("90 g Fuggle, 5 %, wet, 60 min", "20 g Fuggle, 5 %, 60 min"),  # 4.5 g of wet hops for one of dried
    ],
)
def test_other_words_bring_the_same_bitterness(line: str, same: str, brings: Callable[[str], Any]) -> None:
    assert brings(line).bitterness.number == pytest.approx(brings(same).bitterness.number, rel=1e-4)
    assert brings(line).bitterness.number > 0


@pytest.mark.parametrize("line", ["flameout", "mash hop", "in the keg", "into the fermenter", "dry hop, day 3"])
def test_hops_that_do_not_boil_bring_no_bitterness(line: str, brings: Callable[[str], Any]) -> None:
    assert brings(f"30 g Fuggle, 5 %, {line}").bitterness.number == 0


def test_what_is_not_reckoned_is_said_and_the_word_is_shown(brings: Callable[[str], Any]) -> None:
    mashed = brings("30 g Fuggle, 5 %, mash hop").hop
    assert hop_words(mashed) == "mash hop"
    assert "none is reckoned" in kept_words(mashed)
    assert hop_words(brings("30 g Fuggle, 5 %, whirlpool 20 min at 80 °C").hop).startswith("whirlpool 20")


@pytest.mark.parametrize(
    ("line", "days"),
    [
        ("dry hop, day 3", 7.0),
        ("dry hop after 4 days", 6.0),
        ("dry 3 days at 19 °C", 3.0),
        ("into the fermenter", 10.0),
        ("dry", 3.0),
    ],
)
def test_dry_hops_from_a_day_on_lie_till_packaging(line: str, days: float, brings: Callable[[str], Any]) -> None:
    use = brings(f"30 g Fuggle, 5 %, {line}").hop.use
    assert use.days.number == pytest.approx(days)


def test_wet_hops_keep_as_much_beer_as_they_would_dried(hopped: Callable[..., Any]) -> None:
    packaged = [
        hopped("20 g Fuggle, 5 %, 60 min", line).figures.volumes.packaged.number
        for line in ("450 g Fuggle, wet, dry 3 days", "100 g Fuggle, dry 3 days")
    ]
    assert packaged[0] == pytest.approx(packaged[1])


def test_the_method_has_the_authors_word(hopped: Callable[..., Any]) -> None:
    plan = hopped(
        "20 g Fuggle, 5 %, bittering 60 min",
        "20 g Cascade, 5 %, flameout",
        "20 g Saaz, 5 %, whirlpool 20 min at 80 °C",
        "20 g Perle, 5 %, mash hop",
        "20 g Target, in the keg",
    )
    told = [(step.kind, step.title, "".join(str(part) for it in step.sentences for part in it)) for step in steps(plan)]
    titles = [title for _, title, _ in told]
    assert "Add Fuggle: bittering" in titles
    assert "Add Cascade: flameout" in titles
    assert "Let the hops stand: whirlpool" in titles
    assert ("hops", "Add the mash hops") in [(kind, title) for kind, title, _ in told]
    assert any(kind == "keg" and " of Target" in words for kind, _, words in told)
