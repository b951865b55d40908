"""What the yeast makes of the wort: attenuation from grist, mash and yeast, then gravity and strength by Balling."""

from __future__ import annotations

from gristbook.equations import alcohol, attenuation, gravity, mash
from gristbook.model.recipe import Recipe, Sugar
from gristbook.model.steps import MashStep
from gristbook.model.yeast import Yeast
from gristbook.pantry.doubts import usual
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, as_it_comes
from gristbook.targets.beer.serving import degree_of_fermentation, strengths
from gristbook.targets.conventions import carried_out
from gristbook.targets.results import Fermentation, Grist, Volumes, Wort
from gristbook.targets.wort.volumes import reaches_fermenter

FOLLOWS = "how far yeast follows the curve of the mash"


def fermentation(recipe: Recipe, grist: Grist, wort: Wort, volumes: Volumes) -> Fermentation:
    """Final gravity and strength, before priming; from the equivalent original gravity where sugar joins later.

    Raises
    ------
    Refusal
        No yeast to say how far it goes.
    """
    extracts = _in_fermenter(grist, volumes)
    yeast = hungriest(recipe.fermenting)
    if yeast.leaves_nothing:
        real = _real(yeast.attenuation, "real attenuation")
    else:
        parts = {"extracts_kg": extracts, "attenuations": _attenuations(recipe, grist, yeast)}
        real = apply(attenuation.blended_attenuation, "real attenuation", **parts)
    original = wort.equivalent_original_plato
    rest = apply(attenuation.real_extract_after, "real extract", original=original, real_attenuation=real)
    apparent = apply(attenuation.apparent_extract, "apparent extract", original=original, real=rest)
    final = apply(gravity.gravity_from_plato, "final gravity", extract=apparent)
    abw = apply(alcohol.abw_balling, "alcohol by weight", original=original, real=rest)
    abv = apply(alcohol.abv, "alcohol by volume", abw=abw, gravity=final)
    return Fermentation(
        real,
        apply(attenuation.apparent_attenuation, "apparent attenuation", original=original, apparent=apparent),
        rest,
        apparent,
        final,
        abw,
        abv,
        degree_of_fermentation(wort, rest),
        strengths(wort, final, apparent, abv),
        _fruit_acid(grist, volumes),
    )


def _fruit_acid(grist: Grist, volumes: Volumes) -> Value | None:
    """Acid that fruit brings, in a litre of the beer; what stays in the kettle takes no share of it."""
    acids = tuple(
        (line.mass * line.sugar.flesh.acid).called(f"acid of {line.sugar.name}")
        for line in grist.sugars
        if line.sugar.flesh is not None
    )
    if not acids:
        return None
    return (sum_of(acids, "acid of the fruit").told_in("g") / volumes.fermenting).called("acid of the fruit")


def hungriest(yeasts: tuple[Yeast, ...]) -> Yeast:
    """The yeast that goes furthest: where several are pitched, the beer ends where that one stops.

    Raises
    ------
    Refusal
        There is none.
    """
    if not yeasts:
        raise Refusal("no yeast, so nothing says how far the beer ferments")
    return max(yeasts, key=lambda yeast: yeast.attenuation.number)


def main_rest(steps: tuple[MashStep, ...]) -> MashStep | None:
    """The rest that makes the sugar: the longest of those at 60 °C or above, else of all; no mash-out and the like."""
    named = [step for step in steps if step.may_convert] or list(steps)
    hot = [step for step in named if step.temperature.number >= 60] or named
    return max(hot, key=lambda step: step.minutes.number) if hot else None


def _attenuations(recipe: Recipe, grist: Grist, yeast: Yeast) -> tuple[Value, ...]:
    rest = main_rest(recipe.mash)
    whole_malt = _real(yeast.attenuation, "real attenuation of steeped malt")
    mashed = whole_malt
    if rest is not None:
        stands = carried_out(rest.temperature, {"mash temperature, as it stands": "mash temperature"})
        effect = apply(mash.mash_temperature_effect, "effect of the mash temperature", mash_c=stands)
        reached = apply(
            attenuation.attenuation_at_mash_temperature,
            "attenuation at this mash temperature",
            attenuation=yeast.attenuation,
            effect=as_it_comes(effect, {FOLLOWS: usual("mash curve").about(effect.number - 1)}),
        )
        mashed = _real(reached, "real attenuation of the mash")
    return (
        *(whole_malt if line.malt.steep else mashed for line in grist.malts),
        *(_of_sugar(line.sugar) for line in grist.sugars),
    )


def _of_sugar(sugar: Sugar) -> Value:
    """Sugars are known in real terms; malt extract in apparent ones, as malt is."""
    return _real(sugar.attenuation, f"real attenuation of {sugar.name}") if sugar.from_malt else sugar.attenuation


def _real(apparent: Value, label: str) -> Value:
    return apply(attenuation.real_from_apparent_attenuation, label, apparent_attenuation=apparent)


def _in_fermenter(grist: Grist, volumes: Volumes) -> tuple[Value, ...]:
    """Extracts to weigh the attenuations by: only sugar into the fermenter is not thinned by what the kettle keeps."""
    lines = [(line.extract, line.malt.name, False) for line in grist.malts]
    lines += [(line.extract, line.sugar.name, line.sugar.into_fermenter) for line in grist.sugars]
    thins = any(later for _, _, later in lines)
    return tuple(
        reaches_fermenter(part, volumes, f"extract of {name} in the fermenter") if thins and not later else part
        for part, name, later in lines
    )
