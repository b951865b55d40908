"""The rows of advice against slips: a factor of ten or of twenty-eight, and what no beer, mash or vessel can be.

Each row has the span that is usual and, wider, the one past which nobody means it. Read with `advice.Row`.
"""

from __future__ import annotations

from math import inf

from gristbook.targets.advice import slip_figures as figures
from gristbook.targets.advice.advice import Row, Weight
from gristbook.targets.conventions import FERMENTER_USABLE, MOST_CONVERTED, STRONG
from gristbook.targets.wort.small_mash import in_a_bag

BOUNDS: tuple[Row, ...] = (
    Row(
        "strength of the wort",
        lambda plan: plan.figures.wort.equivalent_original,
        (1.015, 1.150),
        "The wort is hardly more than water.",
        "The wort is stronger than beers are brewed.",
        "Below this there is next to nothing to ferment, and above it hardly a yeast that finishes.",
        possible=(1.005, 1.2),
        where=figures.most_grain,
    ),
    Row(
        "mash efficiency",
        figures.mash_efficiency,
        (0.40, inf),
        "The mash gives little of what is in the grain.",
        "",
        "A mash and its run-off bring between a half and nine tenths of what the grain holds.",
        possible=(0.15, inf),
    ),
    Row(
        "conversion",
        figures.conversion,
        (-inf, MOST_CONVERTED),
        "",
        "The mash would have to dissolve more than mashes do, for the efficiency that its brewhouse is said to have.",
        "What a grist keeps of its wort is lost to it; this plan goes by as much as a mash can dissolve.",
    ),
    Row(
        "bitterness in beer",
        lambda plan: plan.figures.bitterness.total,
        (0.0, 120.0),
        "",
        "It is more bitter than beer can be.",
        "About 100 mg of iso-alpha acids stay dissolved in a litre; the rest is hops that nobody tastes.",
        "from memory: the solubility of iso-alpha acids in beer",
        possible=(0.0, 300.0),
        where=figures.most_bitter,
    ),
    Row(
        "hops for a litre",
        figures.hops,
        (0.0, 40.0),
        "",
        "There are more hops than a kettle and a fermenter take.",
        "They keep more beer than they flavour.",
        possible=(0.0, 80.0),
        where=figures.most_hops,
    ),
    Row(
        "dried yeast for a litre",
        figures.dried_yeast,
        (0.0, 10.0),
        "",
        "There is more dried yeast than any beer wants.",
        "Ten times a full pitch is a slip of the scales, and tastes of yeast.",
        possible=(0.0, 15.0),
        where=figures.first_yeast,
    ),
    Row(
        "thick mash",
        figures.thickness,
        (1.8, inf),
        "The mash can hardly be stirred.",
        "",
        "Below this there are dry lumps in it, and its starch stays starch.",
        possible=(1.0, inf),
        where=figures.first_rest,
    ),
    Row(
        "time of the mash",
        figures.converting,
        (30.0, 150.0),
        "The mash is short for its starch.",
        "The mash is longer than does anything.",
        "At 58 to 76 °C malt turns its starch to sugar in half an hour or so, and in a few minutes not at all; after "
        "an hour and a half at one heat its enzymes are spent.",
        "read: a supplier's page on mashing: a rest of half an hour to an hour and a half; common practice for more",
        possible=(5.0, inf),
        weight=Weight.SPOILS,
    ),
    Row(
        "falling mash",
        figures.fall,
        (-inf, 3.0),
        "",
        "A rest is colder than the one before it, and nothing is said to cool the mash.",
        "The rests go upwards: what a hot rest has stopped, a cooler one does not begin again, unless an enzyme is "
        "added. A line that says “cool to” is left in peace.",
        possible=(-inf, 20.0),
    ),
    Row(
        "hot steep",
        figures.hottest_steep,
        (-inf, 78.0),
        "",
        "Grain is steeped hotter than is good for it.",
        "Above 77 °C or so husks give up tannins, and the beer grows harsh like stewed tea.",
        possible=(-inf, 93.0),
    ),
    Row(
        "time of the steep",
        figures.odd_steep,
        figures.STEEP_MIN,
        "Grain is steeped too briefly to give what is reckoned.",
        "Grain is steeped for hours.",
        "Half an hour is usual: after some minutes half is still in the grain, and after hours it sours.",
    ),
    Row(
        "length of the boil",
        lambda plan: plan.recipe.boil,
        lambda plan: (0.0, 180.0 if plan.figures.wort.original.number >= STRONG else 120.0),
        "",
        "It boils for very long.",
        "Past a few hours a boil only darkens the wort and burns fuel.",
        possible=(0.0, 720.0),
    ),
    Row(
        "steam",
        figures.steams_away,
        (0.0, 0.40),
        "",
        "An hour of boiling takes much of the wort.",
        "A lively boil takes a tenth to a sixth of a kettle in an hour, and a third of a very small one.",
        possible=(0.0, 0.65),
    ),
    Row(
        "size of the batch",
        lambda plan: plan.recipe.batch if plan.brewhouse.kettle is None else None,
        (0.0, 100.0),
        "",
        "Nothing says what vessels hold so much.",
        "A batch as large as this wants a brewhouse that says how much its kettle and its mash tun hold.",
        possible=(0.0, 2000.0),
    ),
    Row(
        "batch of its brewhouse",
        figures.against_its_brewhouse,
        (0.0, 3.5),
        "",
        "It is several times the batch that its brewhouse is set for.",
        "A US gallon is 3.785 L: one for the other fills the beer with water, and its bottles with sugar.",
    ),
    Row(
        "weight of the bag",
        lambda plan: plan.figures.grist.mashed if in_a_bag(plan.recipe, plan.brewhouse) else None,
        (0.0, 10.0),
        "",
        "The wet bag is more than one person lifts out of hot wort.",
        "It weighs about twice its grain, and drips: two bags, or a hoist and a second pair of hands.",
        where=figures.most_grain,
    ),
    Row(
        "raw wort",
        lambda plan: plan.recipe.boil if plan.figures.grist.mashed is not None else None,
        (5.0, inf),
        "The wort of a mash is not boiled.",
        "",
        "Grain carries bacteria and what they make: hold such a wort at 75 °C or more for half an hour, and drink it "
        "young.",
    ),
    Row(
        "time on dry hops",
        figures.longest_dry_hop,
        (0.0, 7.0),
        "",
        "Hops lie in the beer for long.",
        "What they have to give is in the beer after a day or three; after weeks it tastes of leaves.",
        "Wolfe, Qian and Shellhammer, as reported: most of it within a day; a week is the older habit",
    ),
    Row(
        "salts in the water",
        figures.salts_in_the_tap,
        (0.0, 1600.0),
        "",
        "There is more in this water than people drink.",
        "A report in other units, or a slip of the point? Past 1000 mg/L or so water tastes of its salts.",
        "from memory: the World Health Organization's guidelines for drinking water, of all dissolved solids",
    ),
    Row(
        "fermenter",
        figures.fermenter,
        (0.0, FERMENTER_USABLE),
        "",
        "The fermenter has little room left for the foam.",
        "Foam climbs by a quarter of the beer: a fuller vessel wants a blow-off tube, and an airlock clogs and bursts.",
        possible=(0.0, 1.0),
    ),
)
"""Common practice, no source, unless a row says otherwise: what is usual is wide enough for a barley wine of 1.120, a
double India pale ale of 110 IBU, a test batch of 5 L and a Berlin wheat of 1.030."""
