"""What a line of a recipe is read beside: the length of the boil, the size of the batch, the days of fermentation."""

from dataclasses import dataclass

from gristbook.model.steps import FermentStep
from gristbook.reading.lines import Line
from gristbook.reading.quantity import Quantity
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value
from gristbook.text.values import in_days, said


@dataclass(frozen=True, slots=True)
class Brew:
    """The rest of a recipe, as its lines need it; a boil that cannot be read is infinite and bounds nothing."""

    boil_min: float
    batch: Value
    ferment: tuple[FermentStep, ...]

    def dosed(self, dose: Quantity, name: str) -> Value:
        """The weight (g) of so many grams in each litre of the batch."""
        return (said(dose, f"dose of {name}") * self.batch).called(f"weight of {name}")

    def before_packaging(self, after: Quantity, label: str, line: Line) -> Value | None:
        """The days that are left of fermentation so long after pitching; `None` with its problem filed."""
        days = in_days(after, f"{label}, after pitching")
        whole = sum_of((step.days for step in self.ferment), "days of fermentation", "d")
        if days.number < whole.number:
            return less(whole, days, left="the days of fermentation", label=label)
        line.error(f"{after.text} is past the {whole.number:g} days of ferment", "a day before it ends", at=after)
        return None

    def heat_before_packaging(self, days: float) -> Value | None:
        """The temperature of the beer so many days before it is packaged, by the steps of its fermentation."""
        for step in reversed(self.ferment):
            days -= step.days.number
            if days <= 0:
                return step.temperature
        return self.ferment[0].temperature if self.ferment else None
