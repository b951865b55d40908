"""What a line of a recipe is read beside: the length of the boil, the size of the batch, the days of fermentation."""

from dataclasses import dataclass

from gristbook.model.moment import BeforePackaging, BeforeTheEnd, Moment
from gristbook.model.steps import FermentStep
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.quantity import Quantity
from gristbook.reading.tree import Text
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value
from gristbook.text.parts.common import CONTACT, LEFT
from gristbook.text.values import by_default, in_days, said

HIGH_KRAUSEN_DAYS = 2
"""After pitching (common practice, no source: one to three days)."""
_CONTACT = (
    r"(?:on )?day (?P<day>\d+)|(?P<krausen>(?:at )?(?:high )?kr\w+)|after (?P<after>.+)"
    rf"|(?P<last>.+?){LEFT}"
)


@dataclass(frozen=True, slots=True)
class Brew:
    """The rest of a recipe, as its lines need it; a boil that cannot be read is infinite and bounds nothing."""

    boil_min: float
    batch: Value
    ferment: tuple[FermentStep, ...]

    def dosed(self, dose: Quantity, name: str) -> Value:
        """The weight (g) of so many grams in each litre of the batch."""
        return (said(dose, f"dose of {name}") * self.batch).called(f"weight of {name}")

    def minutes_in_boil(self, line: Line) -> Quantity | None:
        """A line's time before the end of the boil; `None` where it is absent, or with its problem filed."""
        minutes = line.quantity("time")
        if minutes is None or minutes.number <= self.boil_min:
            return minutes
        of_no_boil = "" if self.boil_min else f"boil: {minutes.text}, where hops are boiled in some water first"
        line.error(f"{minutes.text} is longer than the boil of {self.boil_min:g} min", of_no_boil, at=minutes)
        return None

    def timed(self, line: Line, before_the_end: str, before_packaging: str) -> Moment | None:
        """The moment that a line says in minutes of the boil or in days, with labels for both.

        `None` where it says neither, or with a problem filed.
        """
        minutes, text = self.minutes_in_boil(line), line.get("days")
        days = self.in_the_beer(text, before_packaging, line) if text else None
        if line.get("end"):
            return BeforeTheEnd(by_default(0.0, "min", before_the_end, "the line says so in words"))
        if minutes:
            return BeforeTheEnd(said(minutes, before_the_end))
        return BeforePackaging(days) if days else None

    def in_the_beer(self, text: Text, label: str, line: Line) -> Value | None:
        """The last days before packaging that a part says: so many, or from a day of fermentation on.

        What is said of both is compared: "day 3, for 4 days".
        """
        first, *more = sorted(text.split(", "), key=lambda it: it.value[0].isdigit())
        days = self._one(first, label, line)
        for held in (line.read(it, f.DAYS) for it in more):
            if first.value[0].isdigit():
                line.error("days is given twice", at=held)
                return None
            if held and days and abs(held.number / 1440 - days.number) > 0.5:
                what = f"{held.text} is not reckoned: it stays {days.number:.3g} days, until it is packaged"
                line.warning(what, "days that agree with ferment", at=held)
        return days

    def _one(self, text: Text, label: str, line: Line) -> Value | None:
        said_of = line.pieces(text, _CONTACT, CONTACT) or {}
        if last := line.read(said_of.get("last"), f.DAYS):
            return in_days(last, label)
        if krausen := said_of.get("krausen"):
            line.warning(f"{krausen.word} is taken as day {HIGH_KRAUSEN_DAYS}", "its day, as on day 3", at=krausen)
            said_of["day"] = Text(str(HIGH_KRAUSEN_DAYS), krausen.place, exact=False)
        if day := said_of.get("day"):
            said_of["after"] = Text(f"{day.value} days", day.place, exact=False)
        after = line.read(said_of.get("after"), f.DAYS)
        return self.before_packaging(after, label, line) if after else None

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
