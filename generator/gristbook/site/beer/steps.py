"""A rest of the mash or a step of the ferment in a few words, by the role that the recipe gives it."""

from __future__ import annotations

from gristbook.model.steps import FermentStep, MashStep
from gristbook.site.figures import Sentence


def rest_in_short(step: MashStep) -> Sentence:
    """How long and how warm a rest is."""
    return *_led(step.role or ""), step.minutes, " at ", step.temperature


def step_in_short(step: FermentStep) -> Sentence:
    """How long and how warm a step of the ferment is, and under what pressure."""
    under = (" under ", step.pressure) if step.pressure is not None else ()
    if step.end is None:
        return *_led(step.called), step.days, " at ", step.temperature, *under
    two = ("between ", " and ") if step.way == "between" else ("from ", " to ")
    return *_led(step.called), step.days, f" {two[0]}", step.temperature, two[1], step.end, *under


def _led(words: str) -> Sentence:
    return (f"{words}, ",) if words else ()
