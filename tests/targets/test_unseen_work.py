"""What is the same for all that a plan asks of it is worked out once: counted in calls, which no machine changes."""

from dataclasses import replace

import pytest
from made_up import BASES, brewhouse, hop, malt, recipe, sugar

from gristbook.targets.chain import work_out
from gristbook.targets.hops import addition as hop_addition
from gristbook.targets.models import BITTERNESS

MODELS = [*BITTERNESS]


@pytest.mark.parametrize("model", MODELS)
def test_the_gravity_of_the_boil_is_worked_out_once_an_addition(model: str, monkeypatch: pytest.MonkeyPatch) -> None:
    hops = (hop("Fuggle", 30, "boil", minutes=60), hop("Goldings", 20, "boil", minutes=15))
    beer = recipe(
        20,
        60,
        (malt("Pale malt", BASES["Pale malt"], 4),),
        (sugar("Dried extract", 0.5, from_malt=True, minutes=10),),
    )
    asked = []

    def counted(*args: object, **others: object) -> object:
        asked.append(args)
        return worked_out(*args, **others)

    worked_out = hop_addition.boil_gravity
    monkeypatch.setattr(hop_addition, "boil_gravity", counted)
    work_out(replace(beer, hops=hops), brewhouse("a tun", 20), model, "morey 1995")
    assert len(asked) == len(hops)
