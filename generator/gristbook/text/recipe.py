"""A recipe file to the model."""

from collections.abc import Iterator, Mapping
from math import inf
from pathlib import PurePosixPath

from gristbook.model.amount import Share
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.hop import HoppedKit
from gristbook.model.moment import Stage
from gristbook.model.packing import Carbonation
from gristbook.model.recipe import Expectation, Malt, Recipe, Sugar
from gristbook.model.style import Style
from gristbook.problems import nearest
from gristbook.reading.apart import lines_in
from gristbook.reading.fields import Fields, read_fields
from gristbook.reading.lines import readable
from gristbook.reading.names import one_form
from gristbook.reading.page import Page, read_page
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.twice import once_told
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.brew import Brew
from gristbook.text.carbonating import read_carbonation
from gristbook.text.editions import read_editions, unknown_brewhouse
from gristbook.text.expecting import Stated, expectation, read_expectations, read_intentions, stated_apart
from gristbook.text.extras import is_of_kind, read_extra
from gristbook.text.fermenting import read_ferment
from gristbook.text.front import with_fields_alone
from gristbook.text.fruit import read_fruit
from gristbook.text.grist import read_extract, read_malts, read_sugar
from gristbook.text.hops import read_hop
from gristbook.text.mashing import read_mash
from gristbook.text.parts.water import A_WATER
from gristbook.text.values import Desk, said, unread
from gristbook.text.vocabulary import LINES, RECIPE
from gristbook.text.water import read_treatment
from gristbook.text.yeast import read_yeasts

RAW = "none|no|no boil|not boiled|unboiled|raw(?: ale)?"
"""What stands for the length of a boil where there is none."""

STYLED = {"original_gravity": 1.0, "final_gravity": 1.0, "strength": 100.0, "bitterness": 1.0, "colour": 1.0}
"""The figures of a style, and by what the pantry's are multiplied."""

FERMENTABLES = ("malts", "sugars", "extracts")
"""Sections whose things may stand among malts."""
BESIDE_WATER = ("enzyme", "fining", "kettle fining", "nutrient")
"""What stands under water, and is of another section."""

OUT_OF_SCOPE = "without malt this is no beer, and a mead, a cider or a wine is not worked out"


def read_recipe(source: str, path: str, brewhouses: Mapping[str, Brewhouse], usual: str, desk: Desk) -> Recipe | None:
    """The text of a recipe to the model; `None` where it has an error. ``usual`` is the book's own brewhouse."""
    front = _front(source, path, desk)
    if front is None:
        return None
    page, fields, stated = front
    brewhouse = _brewhouse(fields, brewhouses, usual, desk)
    batch, kettle, target = map(fields.quantity, ("batch", "kettle", "original gravity"))
    boil, boil_min, raw = _boil(fields, desk)
    held = read_ferment(fields.lines("ferment"), desk)
    brew = Brew(boil_min, said(batch, "batch") if batch else brewhouse.batch, held)
    *fermentables, others = _by_kind(fields, desk)
    malts, sugars, kits = _grist(fermentables, brew, desk)
    in_shares = any(isinstance(item.amount, Share) for item in (*malts, *sugars))
    editions, dropped = read_editions(fields.lines("editions"), brewhouses, desk.problems)
    mashing = read_mash(fields.lines("mash"), desk, fields.lines("sparge"))
    carbonation, still = _carbonation(fields, desk)
    recipe = Recipe(
        slug=one_form(PurePosixPath(path).stem),
        title=fields.words("title"),
        summary=fields.words("summary"),
        date=(written := fields.words("date")),
        style=_style(fields.text("style"), desk),
        brewhouse=brewhouse.name,
        batch=brew.batch,
        boil=boil,
        kettle=said(kettle, "wort at the start of the boil") if kettle else None,
        original_gravity=_wanted(target) if target and in_shares else None,
        malts=malts,
        sugars=sugars,
        hops=tuple(readable(_each(fields, "hops", desk), lambda node: read_hop(node, brew, desk))),
        kits=kits,
        yeasts=read_yeasts(_each(fields, "yeast", desk), written, brew, desk),
        mash=mashing.rests,
        water=read_treatment([it for it in _each(fields, "water", desk) if it not in others], brewhouse.water, desk),
        extras=tuple(readable(others, lambda node: read_extra(node, brew, desk))),
        ferment=held,
        carbonation=carbonation,
        expectations=tuple(_expectations(fields, stated, None if in_shares else target, desk)),
        meant=tuple(read_intentions(fields.table("meant"), desk.problems)),
        editions=editions,
        dropped=dropped,
        prose=page.prose,
        place=page.place,
        prose_line=page.prose_line,
        sparge=mashing.sparge,
        raw=raw,
        still=still,
    )
    return _whole(recipe, brewhouse, desk)


def _front(source: str, path: str, desk: Desk) -> tuple[Page, Fields, Stated] | None:
    """A recipe's page, its fields and what it says that it comes to; `None` where it is none, or of no beer at all."""
    page = read_page(source, path, desk.problems)
    if page is None:
        return None
    front, stated = stated_apart(page.front)
    fields = read_fields(with_fields_alone(front, desk), RECIPE, desk.problems, "a recipe")
    if _without_grain(fields):
        desk.problems.error(page.place, OUT_OF_SCOPE, expected="malts or extracts")
        return None
    return page, fields, stated


def _without_grain(fields: Fields) -> bool:
    """Whether all that ferments is sugar or fruit."""
    return bool(fields.lines("sugars")) and not (fields.lines("malts") or fields.lines("extracts"))


def _wanted(read: Quantity) -> Value:
    return said(read, "original gravity wanted", unit=read.base or "SG")


def _grist(
    lines: list[list[Node]], brew: Brew, desk: Desk
) -> tuple[tuple[Malt, ...], tuple[Sugar, ...], tuple[HoppedKit, ...]]:
    """All that ferments, and the hops that come with some of it; ``lines`` are of malts, sugars, extracts and fruit."""
    malts = tuple(read_malts(lines[0], desk))
    sugars = [*readable(lines[1], lambda node: read_sugar(node, brew, desk))]
    sugars += readable(lines[3], lambda node: read_fruit(node, brew, desk))
    extracts = list(readable(lines[2], lambda node: read_extract(node, brew, desk)))
    return malts, (*sugars, *(sugar for sugar, _ in extracts)), tuple(kit for _, kit in extracts if kit is not None)


def _expectations(fields: Fields, stated: Stated, gravity: Quantity | None, desk: Desk) -> Iterator[Expectation]:
    """What the recipe says that it comes to; a ``gravity`` that its grist is not weighed to reach is that, too."""
    yield from read_expectations(fields.table("expect"), stated, desk.problems)
    if gravity is not None:
        yield expectation("original-gravity", gravity, gravity.place)


def _each(fields: Fields, section: str, desk: Desk) -> list[Node]:
    """Every line of a section that begins with a name, also where several stand in one."""
    nodes = fields.lines(section)
    if (
        len(nodes) == 1
        and isinstance(whole := nodes[0], Table)
        and not {"name", "amount"} & {it.value for it, _ in whole.entries}
    ):
        nodes = tuple(Table((entry,), entry[0].place) for entry in whole.entries)  # "Fuggle: 28 g, 60 min" under hops
    texts = (once_told(it, desk.problems) if isinstance(it, Text) else it for it in nodes)
    nodes = tuple(it for it in texts if not (isinstance(it, Text) and it.word in ("none", "nothing")))
    alone = A_WATER if section == "water" else ""
    kinds = [desk.names_of(kind) for kind in (FERMENTABLES if section == "malts" else (section,))]

    def named(name: str) -> bool:
        return any(knows(name) for knows in kinds)

    return [line for node in nodes for line in lines_in(node, LINES[section], named, alone)]


def _by_kind(fields: Fields, desk: Desk) -> tuple[list[Node], list[Node], list[Node], list[Node], list[Node]]:
    """Lines of malts, sugars, extracts, fruit and what else goes in, sorted by what they name.

    Sugar and extract may stand among malts; fruit, hulls and enzymes stand elsewhere.
    """
    shelves = desk.pantry
    malts, sweet, extracts, others = (
        _each(fields, section, desk) for section in ("malts", "sugars", "extracts", "finings and spices")
    )
    found = [node for node in sweet if desk.belongs(node, "fruit", shelves.fruits, shelves.sugars)]
    found += [node for node in others if desk.belongs(node, "fruit", shelves.fruits, shelves.finings)]
    found += [node for node in malts if desk.belongs(node, "fruit", shelves.fruits, shelves.malts)]
    hulls = [node for node in malts if is_of_kind(node, desk, "lautering aid")]
    hulls += [node for node in _each(fields, "water", desk) if is_of_kind(node, desk, *BESIDE_WATER)]
    sugars = [node for node in malts if desk.belongs(node, "sugars", shelves.sugars, shelves.malts)]
    tins = [node for node in malts if desk.belongs(node, "extracts", shelves.extracts, shelves.malts)]
    moved = found + hulls + sugars + tins
    malts, sweet, others = ([node for node in nodes if node not in moved] for nodes in (malts, sweet, others))
    return malts, sweet + sugars, extracts + tins, [*_each(fields, "fruit", desk), *found], [*hulls, *others]


def _brewhouse(fields: Fields, brewhouses: Mapping[str, Brewhouse], usual: str, desk: Desk) -> Brewhouse:
    text = fields.text("brewhouse")
    if text is None or text.value in brewhouses:
        return brewhouses[text.value if text else usual]
    if " " in text.value and not nearest(text.value, brewhouses):
        what = f'"{text.value}" is the name of no brewhouse: {usual} is taken'
        desk.problems.warning(text.place, what, expected="its vessels, under brewhouses in book.yaml")
    else:
        unknown_brewhouse(text, brewhouses, desk.problems)
    return brewhouses[usual]


def _boil(fields: Fields, desk: Desk) -> tuple[Value, float, bool]:
    """How long the wort boils, the longest that anything boils (min), and whether the author says that it does not."""
    text = fields.text("boil")
    if text is not None and fits(RAW, text.value):
        return (
            given(0.0, "min", "length of the boil", words="the recipe: no boil", by=By.AUTHOR, place=text.place),
            0.0,
            True,
        )
    boil = fields.quantity("boil")
    if boil is None:
        return unread("min"), inf, False  # a boil that cannot be read bounds nothing
    return said(boil, "length of the boil"), boil.number, False


def _carbonation(fields: Fields, desk: Desk) -> tuple[Carbonation | None, bool]:
    """The gas, and whether the author says that there is to be none."""
    lines = fields.lines("carbonation")
    texts = [it for it in lines if isinstance(it, Text)]
    if len(lines) > len(texts) and len(lines) > 1:
        desk.problems.error(lines[1].place, "a second carbonation", expected="one line")
    if texts:  # "2.4 volumes" and "primed with table sugar", each on a line of its own
        whole = Text(", ".join(it.value for it in texts), texts[0].place, exact=False) if texts[1:] else texts[0]
        lines = (once_told(whole, desk.problems),)
    found = list(readable(lines[:1], lambda node: read_carbonation(node, desk)))
    return next(iter(found), None), found == [None]


def _style(text: Text | None, desk: Desk) -> Style | None:
    if text is None:
        return None
    match = desk.pantry.styles.look_up(text.value)
    record, compared = match.usual or match.only, "so the beer is compared with none"
    if match.usual:
        what = f'"{text.value}" may be several styles: the beer is compared with {match.usual.name}'
        desk.problems.warning(text.place, what, expected=match.names)
    elif match.found and record is None:
        desk.problems.warning(text.place, f'"{text.value}" may be several styles, {compared}', expected=match.names)
    elif record is None:
        near, what = match.nearest, f'unknown style "{text.value}", {compared}'
        desk.problems.warning(text.place, what, expected="" if near else "a style of the pantry", suggestion=near)
    if record is None:
        return None

    spans = {
        name: (spread.low * factor, spread.high * factor)
        for name, factor in STYLED.items()
        for spread in (getattr(record, name),)
    }
    place, source = text.place, record.source
    return Style(name=record.name, family=record.family, about=record.about, source=source, place=place, **spans)


def _whole(recipe: Recipe, brewhouse: Brewhouse, desk: Desk) -> Recipe | None:
    """The recipe, or `None` where a line of it or the whole has an error."""
    _check_whole(recipe, brewhouse, desk)
    return None if desk.problems.errors(recipe.place.path) else recipe


def _check_whole(recipe: Recipe, brewhouse: Brewhouse, desk: Desk) -> None:
    """What no single line can know."""
    _check_shares(recipe, desk)
    if desk.problems.errors(recipe.place.path):
        return  # what is missing may stand in a line that could not be read
    error = desk.problems.error
    if not (recipe.malts or recipe.sugars):
        error(recipe.place, "nothing here ferments", expected="malts, sugars or extracts")
    if not recipe.pitched:
        error(recipe.place, "no yeast", expected="yeast: - 11 g american ale yeast, dried")
    mashed = [malt for malt in recipe.malts if malt.steep is None]
    if mashed and not recipe.mash:
        error(
            mashed[0].place,
            f"{mashed[0].name} is neither mashed nor steeped",
            expected="mash: 67 °C, 60 min, or a steep in the line",
        )
    if recipe.mash and recipe.mash[0].thickness and brewhouse.mash != "sparge":
        what = "all the water goes into this mash: how thick it is is not reckoned"
        desk.problems.warning(recipe.mash[0].place, what, expected=f"a brewhouse that sparges, not {brewhouse.name}")
    _check_moments(recipe, mashed, desk)
    if mashed and brewhouse.mash == "none" and not recipe.beside_extract:
        error(mashed[0].place, f"the brewhouse {brewhouse.name} has no mash", expected="a steep, or malt extract")


def _check_moments(recipe: Recipe, mashed: list[Malt], desk: Desk) -> None:
    """What goes into the mash or the steep needs one."""
    there = {Stage.MASH: bool(mashed), Stage.STEEP: len(mashed) < len(recipe.malts)}
    for extra in recipe.extras:
        if isinstance(extra.moment, Stage) and not there.get(extra.moment, True):
            what = f"{extra.name} goes {extra.moment.value}, and there is none"
            desk.problems.error(extra.place, what, expected="another moment")


def _check_shares(recipe: Recipe, desk: Desk) -> None:
    """A grist is written in weights, or in shares that make a whole and have a gravity to reach."""
    items: list[Malt | Sugar] = [*recipe.malts, *(sugar for sugar in recipe.sugars if sugar.flesh is None)]
    error, shares = desk.problems.error, [item.amount.value.number for item in items if isinstance(item.amount, Share)]
    if shares and len(shares) < len(items):
        odd = next(item for item in items if not isinstance(item.amount, Share))
        error(odd.place, f"{odd.name} has a weight among percentages", expected="weights for all, or shares for all")
    elif desk.problems.errors(recipe.place.path):
        return  # a share or the gravity may stand in a line that could not be read
    elif shares and abs(sum(shares) - 1) > 0.005:
        error(items[0].place, f"the shares make {100 * sum(shares):.1f} %", expected="100 %, within a half")
    elif shares and recipe.original_gravity is None:
        error(recipe.place, "percentages need a gravity to reach", expected="original gravity: 1.048")
