"""The rows of advice on grain that sticks or stays raw, on attenuation, and on what a beer is named for."""

from __future__ import annotations

from math import inf

from gristbook.targets.advice import grist_figures as figures
from gristbook.targets.advice.advice import Row, Weight
from gristbook.targets.advice.slip_figures import first_rest, the_style
from gristbook.targets.conventions import PRACTICE

STICKS = "It has no husks to hold it open, and a mash of it sets like porridge: a few handfuls of rice hulls open it."

GRIST: tuple[Row, ...] = (
    Row(
        "huskless grain",
        figures.huskless,
        lambda plan: None if figures.hulls(plan) else (0.0, 0.60),
        "",
        "Most of the grist has no husk.",
        STICKS,
    ),
    Row(
        "rye and oats",
        figures.rye_and_oats,
        lambda plan: None if figures.hulls(plan) else (0.0, 0.25),
        "",
        "There is much of rye or oats.",
        STICKS,
    ),
    Row(
        "raw grain",
        figures.raw,
        (-inf, 0.0),
        "",
        "A grain is mashed raw that has to be boiled first.",
        "The starch of maize, rice, millet and sorghum opens at 62 to 80 °C, where malt's enzymes are dying: boil it "
        "soft with a tenth of malt, or take flakes.",
        "read: Institute of Brewing, as copied in a digest of 1996, and MEBAK R-100.07.283",
        weight=Weight.SPOILS,
    ),
    Row(
        "unmalted grain",
        figures.unmalted,
        (0.0, 0.50),
        "",
        "There is more unmalted grain than malt converts at ease.",
        "It brings starch and no enzymes, and its mash is thick and slow to run.",
    ),
    Row(
        "attenuation of the yeast",
        figures.stated,
        figures.family,
        "",
        "Its yeast is said to attenuate further than its family does.",
        "The plan's final gravity rests on it: the beer will most likely end higher, and look unfinished.",
        "the pantry: typical of the family, from memory",
    ),
    Row(
        "end of fermentation",
        lambda plan: plan.sheet.get("apparent-attenuation"),
        figures.ends,
        "It ends sweeter than its yeast leaves a beer.",
        "",
        "A hot mash, or much that does not ferment, leaves a beer that is heavy and hard to tell from a stuck one.",
        "the pantry: a tenth below what is typical of the family, from memory",
        where=first_rest,
    ),
    Row(
        "what it is named for",
        figures.lacking,
        figures.least,
        "It is named for {what}, and holds little or none.",
        "",
        "It may be a good beer, but not the one that its name promises.",
        f"the style's guideline, as the pantry cites it; the share is {PRACTICE}",
        where=the_style,
    ),
)
