"""What an amount may not be: the words in which an equation refuses what lies outside physics."""

from gristbook.refusal import Refusal


def not_negative(amount: float, what: str) -> None:
    """Refuse an amount below zero; ``what`` names it in the error."""
    if amount < 0:
        raise Refusal(f"{what} cannot be negative, as {amount:g} is")


def positive(amount: float, what: str) -> None:
    """Refuse an amount that is zero or below; ``what`` names it in the error."""
    if amount <= 0:
        raise Refusal(f"{what} must be above zero, which {amount:g} is not")


def fraction(share: float, what: str) -> None:
    """Refuse a share that is less than nothing or more than the whole; ``what`` names it in the error."""
    if not 0 <= share <= 1:
        raise Refusal(f"{what} lies between 0 and 1, which {share:g} does not")


def no_more(part: float, whole: float, what: str) -> None:
    """Refuse a part that is more than its whole; the last digits of a sum do not count."""
    if part > whole * (1 + 1e-9):
        raise Refusal(f"{what} cannot be more than the whole: {part:g} of {whole:g}")


def side_by_side(first: tuple[float, ...], second: tuple[float, ...], what: str) -> None:
    """Two lists that should run side by side and do not, or are empty, are a slip of the caller's: `ValueError`."""
    if len(first) != len(second) or not first:
        raise ValueError(f"{what} must be as many as each other, and at least one: {len(first)} and {len(second)}")
