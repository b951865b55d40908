"""What the pantry's fields are called on a page, and what they say in a brewer's words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gristbook.model.larder import Ingredient

KINDS: Mapping[str, str] = {
    "base": "base malt",
    "kilned": "kilned malt",
    "smoked": "smoked malt",
    "caramel": "caramel malt",
    "roast": "roasted grain",
    "flaked": "flaked grain",
    "torrefied": "torrefied grain",
    "raw": "unmalted grain",
    "dried": "dried malt extract",
    "liquid": "liquid malt extract",
    "ale": "ale yeast",
    "lager": "lager yeast",
    "other": "yeast of its own kind",
}
"""The pantry's kinds that a brewer calls otherwise."""

NUMBERS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "malts": (
        ("extract", "extract, fine grind, dry basis"),
        ("fine-coarse difference", "a coarse grind gives less by"),
        ("moisture", "moisture"),
        ("colour", "colour"),
        ("diastatic power", "diastatic power"),
        ("usual share", "usual share of a grist"),
    ),
    "sugars": (
        ("extract", "extract of the dry matter"),
        ("moisture", "moisture"),
        ("fermentable", "share of the extract that ferments"),
        ("colour", "colour"),
        ("usual share", "usual share of a grist"),
    ),
    "fruits": (
        ("sugar", "sugar"),
        ("water", "water"),
        ("acid", "acid"),
        ("fermentable", "share of the sugar that ferments"),
        ("stones", "stones, of the whole fruit"),
    ),
    "extracts": (
        ("extract", "extract of the dry matter"),
        ("moisture", "moisture"),
        ("attenuation", "apparent attenuation of a wort of it"),
        ("colour", "colour"),
    ),
    "hops": (
        ("alpha", "alpha acids, as sold"),
        ("alpha in trials", "alpha acids, in trial plots"),
        ("keeps", "share of them left after six months in the warm"),
        ("oil", "essential oil"),
    ),
    "yeasts": (
        ("attenuation", "apparent attenuation"),
        ("temperature", "temperatures that suit it"),
        ("alcohol tolerance", "strength at which it tires"),
    ),
    "finings": (),
}
"""The figures that a page shows of each shelf, in this order, and what they are called there."""

RANGES = frozenset({"temperature"})
"""Figures of which only low and high mean something."""

USES = {
    "bittering": "Known as a bittering hop, chosen for its alpha acids; added late, it flavours a beer as any hop does",
    "aroma": "Known as an aroma hop, chosen for its smell; boiled long, it makes a beer bitter as any hop does",
    "dual": "Known as a hop for both bitterness and aroma",
}
DIASTATIC = {
    "yes": "It is diastatic and goes on eating what other yeasts leave. Be sure that it is done; use heavy bottles.",
    "sometimes": "Some of its kind are diastatic and go on eating in the bottle. Ask its maker, and use heavy bottles.",
}


def what_it_is(it: Ingredient) -> str:
    """What sort of thing it is, in a few words.

    >>> what_it_is(Ingredient("malts", "Rye malt", (), "", "", {}, {}, {"kind": "base", "cereal": "rye"}))
    'a base malt of rye'
    """
    words = it.words
    if it.shelf == "hops":
        origin = words.get("origin", "")
        return f"a hop of {'the ' if origin.startswith('United') else ''}{origin}" if origin else "a hop"
    kind = KINDS.get(words["kind"], words["kind"])
    called = f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
    if it.shelf == "yeasts":
        return f"{called}, {words['species']}" if words.get("species") else called
    return f"{called} of {words['cereal']}" if words.get("cereal") else called


def brewers_words(it: Ingredient) -> Iterator[str]:
    """What its other fields say, a sentence each."""
    words = it.words
    if it.shelf == "malts":
        yield "Its starch has to be mashed." if words["needs mash"] == "yes" else "It may be steeped, without a mash."
    if it.shelf == "fruits":
        if words.get("care"):
            yield words["care"]
        yield f"Its {words['sour of']} acid makes a beer sourer; the pH of the beer is not reckoned, nor its colour."
    if it.shelf == "yeasts":
        if words.get("flocculation"):
            yield f"Flocculation: {words['flocculation']}."
        if words["phenolic"] == "yes":
            yield "It makes clove and pepper of what malt, wheat above all, gives it."
        if words["diastatic"] in DIASTATIC and "diastatic" not in it.about:
            yield DIASTATIC[words["diastatic"]]
    if it.shelf == "hops":
        if words.get("use"):
            yield f"{USES[words['use']]} ({it.source.partition(';')[0]})."
        yield "Keep hops, fresh or spent, away from dogs: they are poison to them."
