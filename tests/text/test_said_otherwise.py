"""What is said as a person says it gives the same figures as what is said in the plain form beside it."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.figures import named_figures

SOUND = {
    "malts": "4 kg pale ale malt",
    "hops": "28 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "11 g american ale yeast, dried",
    "mash": "67 °C, 60 min",
    "ferment": "18 °C, 14 days",
    "carbonation": "2.4 volumes, primed with table sugar",
}

ALIKE = [
    ("malts", "9# pale ale malt", "9 lb pale ale malt"),
    ("malts", "4 kg pale ale malt; a half pound of flaked oats", "4 kg pale ale malt; 8 oz flaked oats"),
    ("extracts", "1 tin light liquid malt extract, 1.5 kg", "1.5 kg light liquid malt extract"),
    ("extracts", "1.5 kg tin of light liquid malt extract", "1.5 kg light liquid malt extract"),
    ("extracts", "500 g light dried malt extract with 10 min to go", "500 g light dried malt extract, 10 min"),
    ("extracts", "500 g light dried malt extract at the start of the boil", "500 g light dried malt extract"),
    ("hops", "28 g Fuggle, 4.5 % alpha, when the heat goes off", "28 g Fuggle, 4.5 % alpha, flameout"),
    (
        "hops",
        "28 g Fuggle, 4.5 % alpha, at flameout, stand for 20 min at 80 °C",
        "28 g Fuggle, 4.5 % alpha, stand 20 min at 80 °C",
    ),
    ("yeast", "one 11 gram packet american ale yeast", "11 g american ale yeast, dried"),
    ("yeast", "american ale yeast, 1 dry packet (11.5 g)", "11.5 g american ale yeast, dried"),
    ("yeast", "200 billion cells american ale yeast", "american ale yeast, 200 billion cells"),
    ("yeast", "150 mL thick slurry of german lager yeast from the last helles", "150 mL german lager yeast, slurry"),
    ("mash", "63°, 60 min", "63 °C, 60 min"),
    ("mash", "67 °C, 60 min, rinse with 12 L at 77 °C", "67 °C, 60 min, sparge with 12 L at 77 °C"),
    ("mash", "152 °F for 75 min. Mash out 168 °F for 10 min", "152 °F, 75 min; 168 °F, 10 min"),
    ("ferment", "18 °C, 14 days, 2 more weeks at 12 °C", "18 °C, 14 days; 12 °C, 14 days"),
    ("ferment", "18 °C, 14 days; rise 2 °C a day to 24 °C", "18 °C, 14 days; from 18 to 24 °C over 3 days"),
    ("ferment", "64 °F, 14 days; rise 3 °F a day to 70 °F", "64 °F, 14 days; from 64 to 70 °F over 2 days"),
    ("ferment", "18 °C, 14 days, free rise to 24 °C", "free rise from 18 to 24 °C, 14 days"),
    (
        "ferment",
        "18 °C, 4 days; rise to 24 °C over 3 days, 10 days in all",
        "18 °C, 4 days; from 18 to 24 °C over 3 days; 24 °C, 7 days",
    ),
    ("ferment", "18 °C, 4 days; from 18 °C down to 3 °C over 3 days", "18 °C, 4 days; from 18 to 3 °C over 3 days"),
    ("carbonation", "1 carbonation drop per 330 mL bottle", "carbonation drops, 1 per 330 mL bottle"),
    ("carbonation", "120 g corn sugar boiled in a cup of water", "primed with 120 g corn sugar"),
    ("carbonation", "table sugar 6 g/L", "6 g/L table sugar"),
    ("malts", "4 kg pale ale malt, kept by the door", "4 kg pale ale malt"),
    ("malts", "4 kg pale ale malt; 250 g caramel malt, 80 L or so", "4 kg pale ale malt; 250 g caramel malt, 80 °L"),
    (
        "extracts",
        "3 kg light liquid malt extract (half at start, half with 15 min to go)",
        "1.5 kg light liquid malt extract; 1.5 kg light liquid malt extract, 15 min",
    ),
    (
        "extracts",
        "500 g light dried malt extract, last 15 minutes of the boil",
        "500 g light dried malt extract, 15 min",
    ),
    ("extracts", "500 g light dried malt extract, 15 min from the end", "500 g light dried malt extract, 15 min"),
    ("hops", "28 g Fuggle, 4.5 % alpha, at switch off", "28 g Fuggle, 4.5 % alpha, flameout"),
    ("hops", "28 g Fuggle, 4.5 % alpha, turn-off", "28 g Fuggle, 4.5 % alpha, flameout"),
    ("hops", "28 g Fuggle, 4.5 % alpha, when I turn off the gas", "28 g Fuggle, 4.5 % alpha, flameout"),
    ("hops", "28 g Fuggle, 4.5 % alpha, at the beginning of the boil", "28 g Fuggle, 4.5 % alpha, 60 min"),
    ("hops", "28 g Fuggle, three years old, 1 % left, 60 min", "28 g Fuggle, 1 % alpha, 60 min"),
    ("hops", "28 g Fuggle, 4.5 %, boiled 30 min in 1 L water as a hop tea", "28 g Fuggle, 4.5 % alpha, 30 min"),
    (
        "hops",
        "28 g Fuggle, 4.5 % alpha, flameout, left to stand for 15 min",
        "28 g Fuggle, 4.5 % alpha, stand 15 min at 80 °C",
    ),
    ("yeast", "the sachet under the lid, 7 g american ale yeast", "7 g american ale yeast, dried"),
    ("yeast", "half of an 11 g packet of american ale yeast", "5.5 g american ale yeast, dried"),
    ("yeast", "half a sachet of dried american ale yeast (about 5 g)", "5 g american ale yeast, dried"),
    (
        "yeast",
        "150 mL thick slurry from the last bitter, german lager yeast, two weeks old",
        "150 mL german lager yeast, slurry, 14 days old",
    ),
    (
        "yeast",
        "german lager yeast, 500 ml of fresh slurry from a helles, harvested 5 days ago",
        "500 mL german lager yeast, slurry, 5 days old",
    ),
    (
        "yeast",
        "american ale yeast, liquid;2 packs, starter of 1.5 L",
        "2 packs american ale yeast, liquid, starter of 1.5 L",
    ),
    (
        "yeast",
        "11 g american ale yeast, dried; dregs of 2 bottles of last year's red, after a month",
        "11 g american ale yeast, dried",
    ),
    ("yeast", "11 g american ale yeast, dried; oxygen for 90 seconds", "11 g american ale yeast, dried"),
    ("yeast", "5 g dried kveik flakes", "5 g kveik yeast, dried"),
    ("mash", "67 °C for an hour and a half", "67 °C, 90 min"),
    ("mash", "67 °C, one and a half hours", "67 °C, 90 min"),
    ("mash", "67 °C, 60 min, rinse with a gallon at 170 °F", "67 °C, 60 min, sparge with 1 gal at 170 °F"),
    ("mash", "72 °C, 20 min; cool to 58 °C with cold water, 60 min", "72 °C, 20 min; cool to 58 °C, 60 min"),
    ("ferment", "18 °C, 14 days or until steady", "18 °C, 14 days"),
    ("ferment", "18 °C, 14 days; crash to 1 °C and keep there 3 weeks", "18 °C, 14 days; cold crash, 1 °C, 21 days"),
    ("ferment", "18 °C, 4 days; rising to 23 °C in 4 days", "18 °C, 4 days; from 18 to 23 °C over 4 days"),
    ("ferment", "18 °C, 10 days; 20 °C, 4 days with the fruit", "18 °C, 10 days; 20 °C, 4 days"),
    ("fruit", "2 kg sour cherries, stones in, day 10, for 4 days", "2 kg sour cherries, with stones, 4 days"),
    (
        "carbonation",
        "2.6 volumes, champagne yeast at bottling and dextrose",
        "2.6 volumes, primed with dextrose, champagne yeast at bottling",
    ),
    ("carbonation", "50 g table sugar boiled in half a cup of water", "primed with 50 g table sugar"),
    ("malts", "4 kg (8.8 lb) pale ale malt, or any other", "4 kg pale ale malt"),
    ("malts", "pale ale malt 4 kg, black malt 50 g", "4 kg pale ale malt; 50 g black malt"),
    ("malts", "9 lb 2-row malt (pale), 1 lb munich malt light", "9 lb pale two-row malt; 1 lb munich malt light"),
    ("hops", "28 g Fuggle or Golding, 4-5 % alpha, 60 min", "28 g Fuggle, 4.5 % ± 0.5 alpha, 60 min"),
    (
        "hops",
        "20 g each of Fuggle and East Kent Golding, 5 %, flameout",
        "20 g Fuggle, 5 %, flameout; 20 g East Kent Golding, 5 %, flameout",
    ),
    ("hops", "28 g Fuggle, 4.5 %, first wort, left in for the whole boil", "28 g Fuggle, 4.5 %, first wort"),
    ("hops", "28 g Fuggle, 4.5 %, 60 min, about 18 IBU", "28 g Fuggle, 4.5 %, 60 min"),
    ("yeast", "11 g american ale yeast, pitched at 18 °C", "11 g american ale yeast, dried"),
    ("yeast", "1 tsp kveik yeast, dried", "3.105 g kveik yeast, dried"),  # 4.92892 mL of 0.63 g
    ("mash", "mash in with 12 L at 73 °C, should settle at 67 °C, hold an hour", "67 °C, 60 min, strike 12 L at 73 °C"),
    ("mash", "12 L at 73 °C; rest at 67 °C for 60 min", "67 °C, 60 min, strike 12 L at 73 °C"),
    ("mash", "dough in at 40 °C, rest 15 min; 67 °C, 60 min", "40 °C, 15 min; 67 °C, 60 min"),
    ("mash", "67 °C, 60 min, 10 L (2.5 L/kg)", "67 °C, 60 min, 10 L"),
    ("mash", "63 °C, 40 min; heat to 72 °C over 10 min, hold 20 min", "63 °C, 40 min; heat to 72 °C, 20 min"),
    ("mash", "67 °C, 60 min; sparge with 12 L at 75-78 °C", "67 °C, 60 min; sparge with 12 L at 76.5 °C"),
    ("mash", "67 °C, 60 min; rinse the grain, 12 L, 77 °C", "67 °C, 60 min; sparge with 12 L at 77 °C"),
    ("mash", "67 °C, 60 min; sparge to 26 L in the kettle", "67 °C, 60 min; sparge"),
    ("ferment", "days 1-4 at 18 °C; days 5 to 14: 20 °C", "18 °C, 4 days; 20 °C, 10 days"),
    ("ferment", "18 °C for the first 4 days, 20 °C for the next 10", "18 °C, 4 days; 20 °C, 10 days"),
    ("ferment", "18 °C, 4 days; to 22 °C over 4 days, 1 °C a day", "18 °C, 4 days; from 18 to 22 °C over 4 days"),
    (
        "ferment",
        "18 °C, 4 days; to 22 °C, 1 °C a day, 10 days",
        "18 °C, 4 days; from 18 to 22 °C over 4 days; 22 °C, 6 days",
    ),
    ("ferment", "18±1 °C, 14 days, not above 22 °C", "18 °C ± 1, 14 days"),
    ("carbonation", "2.4 volumes, primed with dextrose (corn sugar)", "2.4 volumes, primed with dextrose"),
    ("carbonation", "sugar, 2 g per 330 mL bottle", "2 g sugar per 330 mL bottle"),
    ("carbonation", "keg, primed with 60 g table sugar", "cask, primed with 60 g table sugar"),
    ("carbonation", "bottle primed with 120 g table sugar for the whole batch", "primed with 120 g table sugar"),
]


def _figures(plan_of: Callable[..., Any], section: str, line: str) -> dict[str, float]:
    given = {**SOUND, section: line} if section in SOUND else {**SOUND, "malts": "1 kg pale ale malt", section: line}
    fields = [f"{key}:\n" + "".join(f"  - {one}\n" for one in value.split("; ")) for key, value in given.items()]
    outcome = plan_of("---\ntitle: Beer\nbatch: 20 L\n" + "".join(fields) + "---\n")
    assert outcome.plan is not None, [str(problem) for problem in outcome.problems]
    return {name: figure.number for name, figure in named_figures(outcome.plan.figures).items()}


def test_hops_of_which_a_fifth_is_left_bring_a_fifth_of_the_bitterness(plan_of: Callable[..., Any]) -> None:
    fresh = _figures(plan_of, "hops", "28 g Fuggle, 5 % alpha, 60 min")["bitterness"]
    aged = _figures(plan_of, "hops", "28 g Fuggle, three years old, 1 % left, 60 min")["bitterness"]
    assert aged == pytest.approx(fresh / 5)


@pytest.mark.parametrize(("section", "said", "plainly"), ALIKE, ids=[said for _, said, _ in ALIKE])
def test_it_counts_the_same(section: str, said: str, plainly: str, plan_of: Callable[..., Any]) -> None:
    assert _figures(plan_of, section, said) == pytest.approx(_figures(plan_of, section, plainly))
