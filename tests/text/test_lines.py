"""Every line that a recipe may hold, as a line and as a mapping: what is read of it, its unit and its first letter.

Weights and volumes are exact by definition: a pound is 0.45359237 kg, a US gallon 3.785411784 L, an ounce a sixteenth
of the pound (NIST SP 811, appendix B.8, from memory); a temperature of F is (F − 32)/1.8 °C.
"""

from collections.abc import Callable
from operator import attrgetter
from typing import Any

import pytest

from gristbook.model.amount import Share, Volume, Wanted, Weight
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stand
from gristbook.sheet.value import Value

POUND, GALLON = 0.45359237, 3.785411784
WHOLE = {
    "malts": "4 kg pale ale malt",
    "hops": "28 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "11 g american ale yeast, clean, dried",
    "mash": "67 °C, 60 min",
    "ferment": "19 °C, 10 days",
    "carbonation": "2.2 volumes, primed with table sugar",
}

Reading = dict[str, Any]
"""By attribute: (what is written, number, unit) of a value, or what else is read."""

LINES: list[tuple[str, str, str, str, Reading]] = [
    # the recipe of the plan of the house
    (
        "malts",
        "malts.0",
        "3.0 kg pale ale malt",
        "{amount: 3.0 kg, name: pale ale malt}",
        {"name": "Pale ale malt", "mass": ("3.0 kg", 3.0, "kg"), "share": None, "steep": None, "cereal": "barley"},
    ),
    (
        "malts",
        "malts.0",
        "220 g caramel malt 60",
        "{amount: 220 g, name: caramel malt 60}",
        {"name": "Caramel malt 60 L", "mass": ("220 g", 0.22, "kg"), "needs_mash": False},
    ),
    (
        "malts",
        "malts.0",
        "60 g chocolate malt, 350 °L",
        "{amount: 60 g, name: chocolate malt, colour: 350 °L}",
        {"name": "Chocolate malt", "mass": ("60 g", 0.06, "kg"), "colour": ("350 °L", 350.0, "°L")},
    ),
    (
        "sugars",
        "sugars.0",
        "150 g golden syrup, 10 min",
        "{amount: 150 g, name: golden syrup, time: 10 min}",
        {
            "name": "Golden syrup",
            "mass": ("150 g", 0.15, "kg"),
            "minutes": ("10 min", 10.0, "min"),
            "into_fermenter": False,
            "from_malt": False,
        },
    ),
    (
        "hops",
        "hops.0",
        "28 g Fuggle, 4.5 % alpha, 60 min",
        "{amount: 28 g, name: Fuggle, alpha: 4.5 %, time: 60 min}",
        {
            "name": "Fuggle",
            "amount": Weight,
            "amount.value": ("28 g", 28.0, "g"),
            "alpha": ("4.5 %", 0.045, "fraction"),
            "alpha_assumed": False,
            "use": BeforeTheEnd,
            "use.minutes": ("60 min", 60.0, "min"),
            "whole": False,
        },
    ),
    (
        "hops",
        "hops.0",
        "20 g East Kent Golding, 15 min",
        "{amount: 20 g, name: East Kent Golding, time: 15 min}",
        {"name": "East Kent Golding", "use.minutes": ("15 min", 15.0, "min"), "alpha_assumed": True},
    ),
    (
        "hops",
        "hops.0",
        "25 g East Kent Golding, stand 20 min at 80 °C",
        "{amount: 25 g, name: East Kent Golding, stand: 20 min at 80 °C}",
        {
            "use": Stand,
            "use.minutes": ("20 min", 20.0, "min"),
            "use.start": ("80 °C", 80.0, "°C"),
            "use.end": ("80 °C", 80.0, "°C"),
            "use.air": None,
        },
    ),
    (
        "hops",
        "hops.0",
        "20 g East Kent Golding, dry 3 days, whole",
        "{amount: 20 g, name: East Kent Golding, dry: 3 days, form: whole}",
        {"use": BeforePackaging, "use.days": ("3 days", 3.0, "d"), "whole": True},
    ),
    (
        "yeast",
        "yeasts.0",
        "11 g english ale yeast, attenuative, dried",
        "{amount: 11 g, name: 'english ale yeast, attenuative', form: dried}",
        {
            "name": "English ale, attenuative",
            "amount": ("11 g", 11.0, "g"),
            "dried": True,
            "kind": "ale",
        },
    ),
    (
        "mash",
        "mash.0",
        "67 °C, 60 min",
        "{temperature: 67 °C, time: 60 min}",
        {"temperature": ("67 °C", 67.0, "°C"), "minutes": ("60 min", 60.0, "min"), "water": None, "way": "infusion"},
    ),
    (
        "finings and spices",
        "extras.0",
        "1/2 tsp irish moss, 10 min",
        "{amount: 1/2 tsp, name: irish moss, time: 10 min}",
        {
            "name": "Irish moss",
            "amount": ("1/2 tsp", GALLON / 768 / 2, "L"),
            "written": "1/2 tsp",
            "moment.minutes": ("10 min", 10.0, "min"),
            "moment_written": "10 min",
        },
    ),
    (
        "ferment",
        "ferment.0",
        "19 °C, 10 days",
        "{temperature: 19 °C, time: 10 days}",
        {"temperature": ("19 °C", 19.0, "°C"), "days": ("10 days", 10.0, "d")},
    ),
    (
        "carbonation",
        "carbonation",
        "2.0 volumes, primed with table sugar",
        "{volumes: 2.0 volumes, sugar: table sugar}",
        {"volumes": ("2.0 volumes", 2.0, "vol"), "sugar.called": "table sugar"},
    ),
    # what else must be sayable
    (
        "malts",
        "malts.0",
        "1 lb 4 oz pale ale malt",
        "{amount: 1 lb 4 oz, name: pale ale malt}",
        {"mass": ("1 lb 4 oz", 1.25 * POUND, "kg")},
    ),
    (
        "malts",
        "malts.0",
        "1 1/2 lb pale ale malt, 6.7 EBC",
        "{amount: 1 1/2 lb, name: pale ale malt, colour: 6.7 EBC}",
        {"mass": ("1 1/2 lb", 1.5 * POUND, "kg"), "colour": ("6.7 EBC", 6.7, "EBC malt")},
    ),
    (
        "malts",
        "malts.0",
        "½ lb caramel malt 60, steep 30 min at 68 °C",
        "{amount: ½ lb, name: caramel malt 60, steep: 30 min at 68 °C}",
        {
            "mass": ("½ lb", POUND / 2, "kg"),
            "steep.minutes": ("30 min", 30.0, "min"),
            "steep.temperature": ("68 °C", 68.0, "°C"),
        },
    ),
    (
        "malts",
        "malts.0",
        "3 kg pale ale malt, 81 % extract, 3.5 % moisture",
        "{amount: 3 kg, name: pale ale malt, extract: 81 %, moisture: 3.5 %}",
        {"extract_dry": ("81 %", 0.81, "fraction"), "moisture": ("3.5 %", 0.035, "fraction")},
    ),
    (
        "malts",
        "malts.0",
        "3 kg pale ale malt, 250 °WK",
        "{amount: 3 kg, name: pale ale malt, diastatic power: 250 °WK}",
        {"diastatic_power": ("250 °WK", 250.0, "°WK")},
    ),
    (
        "sugars",
        "sugars.0",
        "400 g honey, into the fermenter",
        "{amount: 400 g, name: honey, fermenter: yes}",
        {"name": "Honey", "mass": ("400 g", 0.4, "kg"), "into_fermenter": True, "minutes": None},
    ),
    (
        "extracts",
        "sugars.0",
        "1.5 kg light dried malt extract, 15 min",
        "{amount: 1.5 kg, name: light dried malt extract, time: 15 min}",
        {"name": "Dried malt extract, light", "from_malt": True, "minutes": ("15 min", 15.0, "min")},
    ),
    (
        "extracts",
        "kits.0",
        "1.5 kg light liquid malt extract, 25 IBU in 23 L",
        "{amount: 1.5 kg, name: light liquid malt extract, hopped: 25 IBU in 23 L}",
        {"bitterness": ("25 IBU", 25.0, "IBU"), "volume": ("23 L", 23.0, "L")},
    ),
    (
        "hops",
        "hops.0",
        "1 oz Fuggle, 5 %, 1 h",
        "{amount: 1 oz, name: Fuggle, alpha: 5 %, time: 1 h}",
        {
            "mass": ("1 oz", 1000 * POUND / 16, "g"),
            "alpha": ("5 %", 0.05, "fraction"),
            "use.minutes": ("1 h", 60.0, "min"),
        },
    ),
    (
        "hops",
        "hops.0",
        "22 IBU Challenger, 7.6 %, first wort",
        "{amount: 22 IBU, name: Challenger, alpha: 7.6 %, first wort: yes}",
        {"amount": Wanted, "amount.value": ("22 IBU", 22.0, "IBU"), "use": FirstWort},
    ),
    (
        "hops",
        "hops.0",
        "25 g Fuggle, 5 %, stand 30 min from 95 to 75 °C",
        "{amount: 25 g, name: Fuggle, alpha: 5 %, stand: 30 min from 95 to 75 °C}",
        {"use.start": ("95", 95.0, "°C"), "use.end": ("75 °C", 75.0, "°C")},
    ),
    (
        "hops",
        "hops.0",
        "25 g Fuggle, 5 %, stand 30 min from 200 to 167 F",
        "{amount: 25 g, name: Fuggle, alpha: 5 %, stand: 30 min from 200 to 167 F}",
        {"use.start": ("200", 168 / 1.8, "°C"), "use.end": ("167 F", 75.0, "°C")},
    ),
    (
        "hops",
        "hops.0",
        "25 g Fuggle, 5 %, stand 30 min cooling from 95 to 75 °C in a room of 12 °C",
        "{amount: 25 g, name: Fuggle, alpha: 5 %, stand: 30 min cooling from 95 to 75 °C in a room of 12 °C}",
        {"use.start": ("95", 95.0, "°C"), "use.end": ("75 °C", 75.0, "°C"), "use.air": ("12 °C", 12.0, "°C")},
    ),
    (
        "hops",
        "hops.0",
        "25 g Fuggle, 5 %, 60 min, HSI 0.35",
        "{amount: 25 g, name: Fuggle, alpha: 5 %, time: 60 min, HSI: 0.35}",
        {"alpha": ("5 %", 0.05, "fraction"), "storage_index": ("0.35", 0.35, "ratio"), "store": None},
    ),
    (
        "hops",
        "hops.0",
        "25 g Fuggle, 5 %, 60 min, stored 30 weeks at -18 °C under vacuum",
        "{amount: 25 g, name: Fuggle, alpha: 5 %, time: 60 min, stored: 30 weeks at -18 °C under vacuum}",
        {
            "store.days": ("30 weeks", 210.0, "d"),
            "store.temperature": ("-18 °C", -18.0, "°C"),
            "store.package": ("under vacuum", 0.5, "ratio"),
        },
    ),
    (
        "yeast",
        "yeasts.0",
        "2 packs american ale yeast, clean, 77 % attenuation",
        "{amount: 2 packs, name: 'american ale yeast, clean', attenuation: 77 %}",
        {"amount": ("2 packs", 2.0, "packs"), "dried": False, "attenuation": ("77 %", 0.77, "fraction")},
    ),
    (
        "yeast",
        "yeasts.0",
        "american ale yeast, clean, dry",
        "{name: 'american ale yeast, clean', form: dry}",
        {"amount": None, "dried": True},
    ),
    (
        "mash",
        "mash.0",
        "153 F, 1 h, 10 qt water",
        "{temperature: 153 F, time: 1 h, water: 10 qt}",
        {
            "temperature": ("153 F", 121 / 1.8, "°C"),
            "minutes": ("1 h", 60.0, "min"),
            "water": ("10 qt", 2.5 * GALLON, "L"),
        },
    ),
    (
        "mash",
        "mash.0",
        "72 C, 15 min, decoction",
        "{temperature: 72 C, time: 15 min, way: decoction}",
        {"temperature": ("72 C", 72.0, "°C"), "way": "decoction"},
    ),
    (
        "ferment",
        "ferment.0",
        "-1 °C, 2 weeks",
        "{temperature: -1 °C, time: 2 weeks}",
        {"temperature": ("-1 °C", -1.0, "°C"), "days": ("2 weeks", 14.0, "d")},
    ),
    (
        "carbonation",
        "carbonation",
        "2.4 volumes, keg",
        "{volumes: 2.4 volumes, keg: yes}",
        {"volumes": ("2.4 volumes", 2.4, "vol"), "sugar": None},
    ),
    (
        "carbonation",
        "carbonation",
        "2.0 volumes, primed with dried malt extract",
        "{volumes: 2.0 volumes, sugar: dried malt extract}",
        {"volumes": ("2.0 volumes", 2.0, "vol"), "sugar.called": "dried malt extract"},
    ),
    (
        "finings and spices",
        "extras.0",
        "2 pods vanilla, 3 days",
        "{amount: 2 pods, name: vanilla, days: 3 days}",
        {"amount": ("2 pods", 2.0, "pieces"), "moment.days": ("3 days", 3.0, "d")},
    ),
    (
        "water",
        "water.salts.0",
        "5 g gypsum, into the mash",
        "{amount: 5 g, name: gypsum, moment: into the mash}",
        {"mass": ("5 g", 5.0, "g"), "formula": "CaSO4·2H2O", "into": "mash", "moment_written": "into the mash"},
    ),
    (
        "water",
        "water.salts.0",
        "3 g calcium chloride, dihydrate",
        "{amount: 3 g, name: calcium chloride dihydrate}",
        {"name": "Calcium chloride, dihydrate", "mass": ("3 g", 3.0, "g"), "into": "water", "moment_written": ""},
    ),
    (
        "water",
        "water.salts.0",
        "0.4 g potassium metabisulfite",
        "{amount: 0.4 g, name: potassium metabisulfite}",
        {"mass": ("0.4 g", 0.4, "g"), "sulfite": True, "brings.names": ("sulfite",)},
    ),
    (
        "water",
        "water.acids.0",
        "4 mL lactic acid, 88 %, in the mash",
        "{amount: 4 mL, name: lactic acid, strength: 88 %, moment: in the mash}",
        {"name": "Lactic acid 88 %", "formula": "C3H6O3", "volume": ("4 mL", 4.0, "mL"), "into": "mash"},
    ),
    (
        "water",
        "water.acids.0",
        "30 mL phosphoric acid 10 %, to the sparge",
        "{amount: 30 mL, name: phosphoric acid 10 %, moment: to the sparge}",
        {"volume": ("30 mL", 30, "mL"), "into": "sparge"},
    ),
    (
        "water",
        "water.dilutions.0",
        "10 L distilled water",
        "{amount: 10 L, name: distilled water}",
        {"amount": Volume, "amount.value": ("10 L", 10.0, "L")},
    ),
    (
        "water",
        "water.dilutions.0",
        "50 % reverse-osmosis water",
        "{amount: 50 %, name: reverse-osmosis water}",
        {"amount": Share, "amount.value": ("50 %", 0.5, "fraction")},
    ),
    (
        "water",
        "water.source",
        "hard tap water",
        "{name: hard tap water}",
        {"name": "Hard tap water", "alkalinity": None, "chloramine": None},
    ),
]


def the_line_of(recipe: Any, where: str) -> Any:
    found = recipe
    for part in where.split("."):
        found = found[int(part)] if part.isdecimal() else getattr(found, part)
    return found


@pytest.mark.parametrize("form", ["line", "mapping"])
@pytest.mark.parametrize(("section", "where", "line", "mapping", "reading"), LINES, ids=[row[2] for row in LINES])
def test_a_line_and_its_mapping_say_the_same_from_the_letter_on_where_it_is_said(
    section: str,
    where: str,
    line: str,
    mapping: str,
    reading: Reading,
    form: str,
    plan_of: Callable[..., Any],
) -> None:
    written = line if form == "line" else mapping
    others = [f"{key}:\n  - {value}" for key, value in WHOLE.items() if key != section]
    text = "\n".join(["---", "title: A recipe", f"{section}:", f"  - {written}", *others, "---", ""])
    outcome = plan_of(text)
    assert outcome.recipe is not None, outcome.problems  # a line may be sound and no beer by itself
    found = the_line_of(outcome.recipe, where)
    assert (found.place.line, found.place.column) == (4, 5)
    for attribute, expected in reading.items():
        value = attrgetter(attribute)(found)
        if isinstance(value, Value):
            words, number, unit = expected
            assert value.number == pytest.approx(number, rel=1e-12)
            assert value.unit == unit
            assert value.place is not None
            assert (value.place.line, value.place.column) == (4, 5 + written.index(words)), attribute
        elif isinstance(expected, type):
            assert type(value) is expected
        else:
            assert value == expected
