"""The rows of advice on mash, boil, fermentation and dry hops. Read with `advice.Row`."""

from __future__ import annotations

from math import inf

from gristbook.targets.advice import process_figures as figures
from gristbook.targets.advice.advice import Row, Weight
from gristbook.targets.advice.slip_figures import CONVERTS

RESTS = "read: a table of rests compiled from Noonan 1996 and others"

PROCESS: tuple[Row, ...] = (
    Row(
        "mash temperature",
        figures.mashed_at,
        (62.0, 72.0),
        "The mash is cooler than its enzymes work at.",
        "The mash is hotter than its enzymes bear.",
        "From 62 to 72 °C starch turns to sugar: cooler it hardly opens, and hotter what should turn it is soon gone.",
        "common practice, no source; a supplier's page on mashing has 64 to 67 °C",
        possible=CONVERTS,
        weight=Weight.SPOILS,
    ),
    Row(
        "hot rest",
        figures.hot_rest,
        (-inf, 78.0),
        "",
        "A rest is hotter than is good for husks.",
        "A mash-out stands at 76 to 78 °C: above that husks give tannin, and starch comes loose that nothing turns.",
        f"{RESTS}: 75.6 to 77.8 °C",
    ),
    Row(
        "cool rest",
        figures.cool_rest,
        (0.0, 40.0),
        "",
        "A cool rest is long for the malt of today.",
        "What a protein rest dissolves is dissolved by the maltster: a long one takes body and foam.",
        f"common practice, no source; {RESTS}: 10 to 20 min, or 15 to 90, and none for modern malt",
    ),
    Row(
        "short boil",
        figures.boil_of_a_mash,
        figures.least_boil,
        "The boil is short for this grist.",
        "",
        "A boil drives off what smells of cooked maize, of which pilsner malt has most, and lets the wort break.",
    ),
    Row(
        "warming",
        figures.warmest_later,
        lambda plan: (-inf, max(figures.warmest_yeast(plan) + 3.0, 22.0)),
        "",
        "It is let grow warmer than this yeast likes.",
        "Hot yeast makes solvent and fruit; at the end of it a few degrees more are enough.",
        "from memory: the family's range, and three degrees; read: a lager's rest at 18 to 22 °C (Troester 2013)",
        weight=Weight.SPOILS,
    ),
    Row(
        "early warmth",
        figures.before_warming,
        (5.0, inf),
        "The lager is warmed before most of it has fermented.",
        "",
        "Its rest begins two to five points above the expected end: earlier, the warmth makes an ale of it.",
        "read: White and Zainasheff 2010, as cited, for the points; common practice, no source, for the days",
    ),
    Row(
        "freezing",
        figures.coldest,
        (-2.0, inf),
        "The beer freezes.",
        "",
        "Beer of five per cent freezes a little below -2 °C; ice bursts vessels and leaves a stronger beer behind.",
        "from memory: a lager is laid at -1 to 4 °C",
        weight=Weight.SPOILS,
    ),
    Row(
        "lagering",
        figures.days_in_the_cold,
        (14.0, inf),
        "The lager has few days in the cold.",
        "",
        "Weeks at 0 to 4 °C settle it and round it off.",
    ),
    Row(
        "time of fermenting",
        figures.days_of_fermenting,
        figures.usual_days,
        "It has few days to ferment.",
        "It is left with its yeast for long.",
        "A yeast needs days to take up what it made, and after many weeks it begins to give itself up.",
        weight=Weight.SPOILS,
    ),
    Row(
        "dry hops",
        figures.dry_hops,
        figures.usual_dry_hops,
        "",
        "There are more dry hops than this beer gains by.",
        "Past 8 g/L more of them taste of herbs and tea, and less of fruit; they keep beer, and wake the yeast.",
        "from memory: Lafontaine and Shellhammer 2018; read: breweries go up to 20 g/L (Hauser and others 2019)",
    ),
    Row(
        "temperature of dry hopping",
        figures.dry_hopped_at,
        figures.usual_dry_hopping,
        "The dry hops lie colder than they give.",
        "The dry hops lie warmer than is good for them.",
        "At 10 to 20 °C they give fruit and flower: warmer leaves and new fermentation, and in the cold little.",
        "common practice, no source: 10 to 20 °C, or as the yeast ferments",
    ),
)
