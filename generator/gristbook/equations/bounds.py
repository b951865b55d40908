"""What physics allows: the refusals that the equations share, in words."""

from __future__ import annotations


def not_negative(**values: float) -> None:
    """Refuse an amount below nothing, or one that is no number."""
    for name, value in values.items():
        if not value >= 0:
            raise ValueError(f"{name} cannot be below 0, and is {value:g}")


def positive(**values: float) -> None:
    """Refuse an amount of nothing or below, or one that is no number."""
    for name, value in values.items():
        if not value > 0:
            raise ValueError(f"{name} must be above 0, and is {value:g}")


def no_more(*, part: float, whole: float, words: str) -> None:
    """Refuse a part that is more than its whole; the last digits of a sum do not count."""
    if part > whole * (1 + 1e-9):
        raise ValueError(f"{words}: {part:g} out of {whole:g}")


def paired(**tuples: tuple[float, ...]) -> None:
    """Refuse lists that should run side by side and do not, and empty ones."""
    lengths = {name: len(values) for name, values in tuples.items()}
    if len(set(lengths.values())) != 1 or 0 in lengths.values():
        raise ValueError(
            "needs as many of each, and at least one: " + ", ".join(f"{n} {name}" for name, n in lengths.items())
        )
