"""The doubt of a choice between published models: how far they lie apart."""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import positive
from gristbook.equations.registry import checked_by_library, equation


@checked_by_library(
    source=sources.GUM_2008,
    where="4.3.8: bounds that need not lie evenly about the number that is used",
    formula="s = (max IBUᵢ − min IBUᵢ) / √12",
)
def bitterness_apart(
    *,
    models: Annotated[
        tuple[float, ...], "IBU", "IBUᵢ", "bitterness of the same hops by every model, the chosen one too"
    ],
) -> Annotated[float, "IBU"]:
    """How far the published models lie apart, as one standard deviation [IBU].

    Nobody knows which of them is nearest to this beer, so it may lie with like chance anywhere between the lowest and
    the highest. Nine in ten then reach just about as far as the models themselves do, and a book that goes by the
    lowest of them is no surer than one that goes by the middle one. Every model counts, also Rager's 5 % for hops that
    only stand in hot wort, which overstates what the chemistry of isomerisation gives, as Garetz's nothing understates
    it: a beer of stands is less sure than a boiled one.
    Refuses fewer than two models.

    >>> bitterness_apart(models=(30, 36, 21, 34))
    4.33
    """
    positive(len(models) - 1, "the number of other models")
    return (max(models) - min(models)) / math.sqrt(12)


@equation(source=sources.DEFINITION, formula="f = 1 + z s / IBU")
def bitterness_factor(
    *,
    chosen: Annotated[float, "IBU", "IBU", "bitterness of a beer's hops by the model that was chosen"],
    apart: Annotated[float, "IBU", "s", "one standard deviation of the models"],
    off: Annotated[
        float,
        "standard deviations",
        "z",
        "how many standard deviations the beer lies off; nobody can know, so it is 0, and its range is what counts",
    ],
) -> Annotated[float, "ratio"]:
    """What a bitterness is multiplied by when the beer lies so far off its model [ratio]; 1 is as the model says.

    Refuses a bitterness that is not positive.

    >>> bitterness_factor(chosen=30, apart=6, off=1)
    1.2
    """
    positive(chosen, "a bitterness")
    return 1 + off * apart / chosen
