"""From finished beer to a glass: priming and bottles, or a keg; keeping and pouring."""

from __future__ import annotations

from collections.abc import Iterator

from gristbook.model.moment import Stage
from gristbook.model.packing import Drops, PrimingSugar
from gristbook.sheet.value import Value
from gristbook.targets.advice.gas_routes import in_keg
from gristbook.targets.beer.packaging import once_packaged
from gristbook.targets.conventions import IN_THE_KEG, practice
from gristbook.targets.figures import Plan
from gristbook.targets.method.cellar import sanitised
from gristbook.targets.method.step import (
    Draft,
    Sentence,
    at_stage,
    draft,
    hops_at,
    listed,
    measured,
    spoken,
    weighed,
    yeast_at,
)
from gristbook.targets.results import Packaging

WARM_C = practice(20.0, "°C", "bottles while they take up their gas")
AS_LABELLED = "Add {them} as the label says."


def package_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from a finished beer to the glass."""
    packaging = plan.figures.packaging
    keg = in_keg(plan)
    poured = keg or (plan.recipe.carbonation is not None and plan.recipe.carbonation.vessel == "cask")
    if keg and packaging is not None:
        yield from _keg(plan, packaging)
    else:
        yield from _bottles(plan, packaging)
    yield draft(
        "serve",
        "Pour it",
        f"Cool it, and pour it gently{'' if poured else ', in one go: the yeast stays in the bottle'}.",
        "It holds about {strength} alcohol by volume.",
        strength=packaging.packaged_abv if packaging is not None else plan.figures.fermentation.abv,
    )


def _bottles(plan: Plan, packaging: Packaging | None) -> Iterator[Draft]:
    gas = plan.recipe.carbonation
    held = gas.vessel if gas is not None else "bottles"
    primer, cask = gas.sugar if gas is not None else None, held == "cask"
    yield sanitised(
        "the cask, its bung and pegs, and the tubing"
        if cask
        else "bottles, caps, tubing, filler and the bottling bucket"
    )
    if gas and gas.drops and packaging and packaging.sugar:
        yield _dropped(gas.drops, packaging.sugar)
    elif primer and packaging and packaging.sugar is not None and packaging.sugar_per_litre is not None:
        yield _prime(plan, primer, packaging.sugar, packaging.sugar_per_litre)
    yield draft(
        "bottle",
        "Fill the cask" if cask else "Bottle it",
        "Fill the cask, leave a finger of room, and drive the bung home."
        if cask
        else f"Fill {'each bottle' if held == 'bottles' else f'the {held}'} to three fingers below the rim, and cap "
        f"{'it' if held == 'bottles' else 'them'} at once.",
        "It is to hold {gas} of carbon dioxide." if packaging is not None else STILL if plan.recipe.still else SILENT,
        AS_LABELLED,
        gas=packaging.volumes if packaging is not None else None,
        them=_at_packaging(plan),
    )
    if packaging is None:
        yield draft("keep", "Keep it cool", "Keep the bottles somewhere cool.")
        return
    yield draft(
        "keep",
        "Let it come round",
        f"Keep the {'cask' if cask else 'bottles'} at {{heat}} for {{time}}, then somewhere cool.",
        "Let the gas out through a soft peg a day before you tap it." if cask else "",
        "It should be ready about {days} after the yeast went in.",
        heat=WARM_C,
        time=once_packaged(plan.figures.fermentation.abv.number, plan.recipe),
        days=packaging.ready,
    )


STILL = "It is to be still: no sugar goes in."
SILENT = "The recipe gives no carbonation, so no sugar and no pressure are reckoned: put in none by guess."


def _dropped(drops: Drops, sugar_g: Value) -> Draft:
    return draft(
        "prime",
        "Prime the bottles",
        "Put {each} of carbonation drops into each bottle of {size}, and no more: it is {sugar} of sugar in all.",
        each=drops.each,
        size=drops.bottle,
        sugar=sugar_g,
    )


def _prime(plan: Plan, primer: PrimingSugar, sugar_g: Value, per_litre: Value) -> Draft:
    return draft(
        "prime",
        "Prime the beer",
        "Weigh {sugar} of {name} for {beer} of beer. For more beer or less, the dose is {dose}.",
        "Boil it in a little water, let it cool, and pour it into the bottling bucket.",
        "Siphon the beer on to it without splashing, leave the yeast behind, and stir gently.",
        "Its yeast is tired or has sunk: stir in {fresh} of fresh dried yeast too, the same again or one that goes no "
        "further.",
        sugar=sugar_g,
        name=spoken(primer.name),
        beer=plan.figures.volumes.packaged,
        dose=per_litre,
        fresh=plan.figures.packaging.fresh_yeast if plan.figures.packaging else None,
    )


def _keg(plan: Plan, packaging: Packaging) -> Iterator[Draft]:
    cold, pushed = packaging.keg_pressures[0]
    yield sanitised("the keg, its lid and seals, and the tubing")
    yield draft(
        "keg",
        "Fill the keg",
        "Siphon the beer in without splashing, close the lid, and drive the air out with a few bursts of gas.",
        "For {gas}, hold it at {heat} under {pressure} for {time}.",
        AS_LABELLED,
        gas=packaging.volumes,
        heat=cold,
        pressure=pushed,
        time=IN_THE_KEG,
        them=_at_packaging(plan),
    )


def _at_packaging(plan: Plan) -> Sentence:
    sweet = [line for line in plan.figures.grist.sugars if line.sugar.moment is Stage.PACKAGING]
    return listed(
        [
            *hops_at(plan.figures.bitterness.hops, Stage.PACKAGING),
            *yeast_at(plan.figures.pitch.yeasts if plan.figures.pitch else (), Stage.PACKAGING),
            *(weighed(line.mass, line.sugar.name) for line in sweet),
            *(measured(extra) for extra in at_stage(plan.recipe, Stage.PACKAGING)),
        ]
    )
