"""The ends of a doubt that is even, told as tests think of it: by one standard deviation."""

from gristbook.sheet.doubts import NINE_IN_TEN, Ends


def even(sd: float) -> Ends:
    """What nine in ten of a normal distribution lie between, about its middle."""
    return (-NINE_IN_TEN * sd, NINE_IN_TEN * sd)
