"""The doubt of a choice between published models: how far the others lie from the one that was chosen."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import positive
from gristbook.equations.registry import BitternessUnits, Ratio, StandardDeviations, equation


@equation(
    source=sources.GUM_2008,
    where="4.2.2, equation (4), with the book's own model in place of the mean",
    formula="s = √(Σ (IBUᵢ − IBU)² / (n − 1))",
    symbols={"chosen": "IBU", "models": "IBUᵢ"},
)
def bitterness_apart(*, chosen: BitternessUnits, models: tuple[BitternessUnits, ...]) -> BitternessUnits:
    """How far the published models lie from the one that was chosen, as one standard deviation [IBU].

    A root mean square over the other models, for the chosen one adds nothing to the sum. It is taken about the model
    that is printed and not about the mean, since it is the printed number that may be wrong: by the mean, a book with
    the lowest of the models would look as sure as one with the middle one. Of so few numbers the lowest and highest
    would hang on a single author, and a median would forget him; so each counts, also Rager's 5 % for hops that only
    stand in hot wort, which overstates what the chemistry of isomerisation gives, as Garetz's nothing understates it.
    Nobody knows which is nearer, and a beer of stands is less sure than a boiled one.

    Parameters
    ----------
    chosen : bitterness of a beer's hops by the model that was chosen [IBU]
    models : bitterness of the same hops by every model, the chosen one too [IBU]

    Raises
    ------
    ValueError
        Fewer than two models.

    >>> bitterness_apart(chosen=30, models=(30, 36, 21, 34))
    6.658
    """
    positive(len(models) - 1, "the number of other models")
    return math.sqrt(math.fsum((model - chosen) ** 2 for model in models) / (len(models) - 1))


@equation(
    source=sources.DEFINITION,
    formula="f = 1 + z s / IBU",
    symbols={"chosen": "IBU", "apart": "s", "off": "z"},
)
def bitterness_factor(*, chosen: BitternessUnits, apart: BitternessUnits, off: StandardDeviations) -> Ratio:
    """What a bitterness is multiplied by when the beer lies so far off its model [ratio]; 1 is as the model says.

    Parameters
    ----------
    chosen : bitterness of a beer's hops by the model that was chosen [IBU]
    apart : one standard deviation of the models about it [IBU]
    off : how many standard deviations the beer lies off; nobody can know, so it is 0, and its range is what counts

    Raises
    ------
    ValueError
        A bitterness that is not positive.

    >>> bitterness_factor(chosen=30, apart=6, off=1)
    1.2
    """
    positive(chosen, "a bitterness")
    return 1 + off * apart / chosen
