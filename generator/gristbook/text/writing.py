"""From a recipe back to lines, as a brewer would say them: what it writes, the reader of recipes reads.

A line says what its own line or the pantry said of a thing (its colour, its alpha acids, its attenuation), so that the
recipe stays what it was when the pantry changes, and the change shows as a difference.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from gristbook.model.brings import Brings
from gristbook.model.extra import Extra
from gristbook.model.hop import Hop, HoppedKit, Store
from gristbook.model.moment import BeforePackaging, BeforeTheBoil, BeforeTheEnd, FirstWort, Moment, Stage, Stand
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.model.water import Treatment, WaterSource
from gristbook.model.yeast import Yeast
from gristbook.sheet.origin import By, Given
from gristbook.sheet.value import Value
from gristbook.text.hops import PACKAGES
from gristbook.text.parts.hops import STANDS
from gristbook.text.parts.water import IONS
from gristbook.text.priming import SOLD_AS
from gristbook.text.saying import CUP_L, IN_US, Say, in_line, in_us, metric, noted, plain, spoons, with_doubt
from gristbook.text.writing_steps import carbonation_line, ferment_line, mash_line, sparge_line

Sections = tuple[tuple[str, tuple[str, ...]], ...]
"""Lines by section, in the order of a recipe."""

_PACKED = {times: words for words, times in PACKAGES.items()}


def sections_of(recipe: Recipe, *, us: bool) -> Sections:
    """A recipe's own sections, those that it has, in metric or US units; its title and brewhouse stand elsewhere.

    What an author only says about it (its summary, what it expects, the advice that it goes against) is no part of it.
    """
    say = metric if not us else in_us
    kits = {kit.place: kit for kit in recipe.kits}
    sugars = [line for line in recipe.sugars if not line.from_malt and line.flesh is None]
    fruit = [line for line in recipe.sugars if line.flesh is not None]
    extracts = [line for line in recipe.sugars if line.from_malt]
    target = recipe.original_gravity
    written: dict[str, Iterable[str]] = {
        "date": [recipe.date],
        "style": [recipe.style.name if recipe.style else ""],
        "batch": [say(recipe.batch)],
        "boil": ["none" if recipe.raw else say(recipe.boil)],
        "kettle": [say(recipe.kettle) if recipe.kettle else ""],
        "original gravity": [say(target) if target else ""],
        "malts": [_malt(malt, say) for malt in recipe.malts],
        "sugars": [_sugar(sugar, None, say) for sugar in sugars],
        "fruit": [_sugar(sugar, None, say) for sugar in fruit],
        "extracts": [line for sugar in extracts for line in _extract(sugar, kits.get(sugar.place), say)],
        "hops": [_hop(hop, say) for hop in recipe.hops],
        "yeast": [_yeast(yeast, recipe.date, say) for yeast in recipe.yeasts],
        "mash": [
            *(mash_line(step, say, first=not at) for at, step in enumerate(recipe.mash)),
            *([sparge_line(recipe.sparge, say)] if recipe.sparge else []),
        ],
        "water": _water(recipe.water, say),
        "finings and spices": [_extra(extra) for extra in recipe.extras],
        "ferment": [ferment_line(step, say) for step in recipe.ferment],
        "carbonation": [carbonation_line(recipe.carbonation, say) if recipe.carbonation else "still" * recipe.still],
    }
    kept = ((name, tuple(line for line in lines if line)) for name, lines in written.items())
    return tuple((name, lines) for name, lines in kept if lines)


def speaks_us(recipe: Recipe) -> bool:
    """Whether the batch was asked for in gallons or quarts, as the recipe, its edition or its brewhouse wrote it."""
    origin = recipe.batch.origin
    return isinstance(origin, Given) and origin.us


def written_in_us(sections: Sections) -> bool:
    """Whether lines that were written once are in US units, so that today's may be compared with them word for word."""
    batch = dict(sections).get("batch", ("",))
    return IN_US.search(batch[0]) is not None


def _named(amount: Value | None, name: str, say: Say) -> str:
    """An amount and a name, whose own commas would part the line."""
    words = name.replace(",", "")
    return f"{say(amount)} {words}" if amount is not None else words


def _own(value: Value, word: str, say: Say) -> str:
    """What the recipe's line itself said of a property, with its ±; "" where the pantry says it."""
    if not isinstance(value.origin, Given) or value.origin.by is not By.AUTHOR:
        return ""
    return f"{with_doubt(value, say)} {word}".rstrip()


def _colour(value: Value, say: Say) -> str:
    """A colour, with what an author wrote behind ±; nothing where there is none to see."""
    return (_own(value, "", say) or say(value)) if value.number > 0 else ""


def _malt(malt: Malt, say: Say) -> str:
    steep = f"steep {say(malt.steep.minutes)} at {say(malt.steep.temperature)}" if malt.steep else ""
    return in_line(
        _named(malt.amount.value, malt.own_words or malt.name, say),
        _colour(malt.colour, say),
        _own(malt.extract_dry, "extract" if malt.extract_dry.unit == "fraction" else "", say),
        _own(malt.moisture, "moisture", say),
        _own(malt.diastatic_power, "", say) if malt.diastatic_power else "",
        steep,
        noted(malt.note),
        _allergens(malt.brings),
    )


def _extract(sugar: Sugar, kit: HoppedKit | None, say: Say) -> Iterable[str]:
    """A line for every tin, so that each says what its label says."""
    if kit is None or kit.tins == 1 or sugar.mass is None:
        return [_sugar(sugar, kit, say)]
    one = replace(kit, volume=_part(kit.volume, kit.tins))
    return kit.tins * [_sugar(sugar.weighing(_part(sugar.mass, kit.tins)), one, say)]


def _part(whole: Value, tins: int) -> Value:
    return replace(whole, number=whole.number / tins)


def _sugar(sugar: Sugar, kit: HoppedKit | None, say: Say) -> str:
    when, days = _sugar_moment(sugar), sugar.minutes or sugar.days
    share = "sugar" if sugar.flesh else "extract" if sugar.extract_dry.unit == "fraction" else ""
    ferments = sugar.attenuation if not sugar.from_malt and sugar.attenuation.number < 1 else None
    return in_line(
        _named(sugar.amount.value, sugar.own_words or SOLD_AS.get(sugar.name, sugar.name), say),
        when,
        ("flameout" if days.unit == "min" and not days.number else say(days)) if days else "",
        _colour(sugar.colour, say),
        _own(sugar.extract_dry, share, say),
        sugar.flesh.said if sugar.flesh else "",
        (_own(ferments, "fermentable", say) or f"{say(ferments)} fermentable") if ferments else "",
        f"{say(kit.bitterness)} in {say(kit.volume)}" if kit else "",
        noted(sugar.note),
        _allergens(sugar.brings),
    )


def _sugar_moment(sugar: Sugar) -> str:
    """Where it goes in; a sugar's whole boil needs no word, and a fruit's does."""
    if sugar.into_fermenter:
        return sugar.moment.value if isinstance(sugar.moment, Stage) else Stage.FERMENTER.value
    return "in the kettle" if sugar.flesh and sugar.moment is Stage.KETTLE else ""


def _hop(hop: Hop, say: Say) -> str:
    alpha = (_own(hop.alpha, "alpha", say)) or f"{say(hop.alpha)} alpha"
    return in_line(
        _named(hop.amount.value, hop.own_words or hop.name, say),
        alpha,
        hop.called,
        _use(hop, say),
        _store(hop.store, say) if hop.store else "",
        f"HSI {with_doubt(hop.storage_index, say)}" if hop.storage_index else "",
        hop.form if hop.form != "pellets" else "",
        noted(hop.note),
        _allergens(hop.brings),
    )


def _store(store: Store, say: Say) -> str:
    package = _PACKED[store.package.number] if store.package else ""
    return f"stored {say(store.days)} at {say(store.temperature)} {package}".rstrip()


def _use(hop: Hop, say: Say) -> str:
    stand = "" if hop.called in STANDS else "stand "
    match hop.use:
        case FirstWort():
            return "first wort"
        case BeforePackaging(days, heat):
            return in_line(f"dry {say(days)}", f"at {say(heat)}" if heat else "")
        case BeforeTheEnd(minutes):
            return say(minutes)
        case Stage():
            return ""  # what it is called says it
        case Stand(minutes, start, end, Value() as air):
            return f"{stand}{say(minutes)} cooling from {say(start)} to {say(end)} in a room of {say(air)}"
        case Stand(minutes, start, end) if start.number == end.number:
            return f"{stand}{say(minutes)} at {say(start)}"
        case Stand(minutes, start, end):
            return f"{stand}{say(minutes)} from {say(start)} to {say(end)}"


def _yeast(yeast: Yeast, written: str, say: Say) -> str:
    attenuation = _own(yeast.attenuation, "attenuation", say) or f"{say(yeast.attenuation)} attenuation"
    made = f"{say(yeast.age)} old" if yeast.age is not None else ""
    if yeast.age is not None and written and not yeast.called:
        made = f"made {date.fromisoformat(written) - timedelta(days=yeast.age.number):%Y-%m-%d}"
    amount = f"{metric(yeast.amount)} " if yeast.amount is not None else ""
    rate = _own(yeast.pitch_rate, "", say) if yeast.pitch_rate else ""
    return in_line(
        f"{amount}{yeast.own_words or yeast.name}",
        yeast.called,
        "dried" if yeast.dried else "liquid",
        attenuation,
        made,
        f"starter {say(yeast.starter)}" if yeast.starter is not None else "",
        *_yeast_moment(yeast.moment, say),
        f"pitch rate {rate}" if rate else "",
        noted(yeast.note),
        _allergens(yeast.brings),
    )


def _yeast_moment(moment: Moment | BeforeTheBoil | None, say: Say) -> Iterable[str]:
    match moment:
        case BeforeTheBoil(days, heat, ph):
            yield from ("in the kettle", f"{say(days)} at {say(heat)}" if heat else say(days))
            yield f"to pH {plain(ph.number, 3)}" if ph else ""
        case BeforePackaging(days):
            yield f"{say(days)} before packaging"
        case Stage():
            yield "at bottling" if moment is Stage.PACKAGING else "in secondary"


def _water(treatment: Treatment, say: Say) -> list[str]:
    source = _source(treatment.source, say) if treatment.source else "tap" if treatment.note else ""
    lines = [in_line(source, noted(treatment.note))]
    lines += [in_line(_named(it.amount.value, it.water.name, say), noted(it.note)) for it in treatment.dilutions]
    lines += [in_line(_named(it.mass, it.name, say), it.moment_written, noted(it.note)) for it in treatment.salts]
    lines += [
        in_line(
            f"{plain(acid.volume.number, 5, 2)} mL {acid.name.replace(',', '')}", acid.moment_written, noted(acid.note)
        )
        for acid in treatment.acids
    ]
    return lines


def _source(water: WaterSource, say: Say) -> str:
    """A water by its name, and by what the recipe's line said of its ions."""
    told = ((words, getattr(water, ion)) for ion, _, words in IONS)
    ions = (_own(value, "", say).replace(f" {value.unit}", "") for _, value in told if value is not None)
    names = (example.split()[0] for ion, _, example in IONS if getattr(water, ion) is not None)
    return in_line(water.name, *(f"{name} {number}" for name, number in zip(names, ions, strict=True) if number))


def _extra(extra: Extra) -> str:
    rest = (extra.said, extra.moment_written, noted(extra.note), _allergens(extra.brings))
    if extra.written:
        return in_line(f"{extra.written} {extra.name.replace(',', '')}", *rest)
    by_spoon = extra.amount is not None and extra.amount.unit == "L" and extra.amount.number < CUP_L
    return in_line(_named(extra.amount, extra.name, spoons if by_spoon else metric), *rest)


def _allergens(brings: Brings) -> str:
    """What the line itself said of it."""
    return f"allergens: {', '.join(brings.names) or 'none'}" if brings.said else ""
