"""A day as people write it, to the day that it is: 2026-02-12, 12 Feb 2026, Feb 12th, 2026, 25/12/2026."""

import re
from datetime import date

MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_YEAR, _DAY, _MONTH = r"(?P<y>\d{4})", r"(?P<d>\d{1,2})(?:st|nd|rd|th)?", r"(?P<m>[a-z]{3,})\.?"
_APART = r"[\s,]+"
_FORMS = tuple(
    re.compile(form, re.IGNORECASE | re.ASCII)
    for form in (
        r"(?P<y>\d{4})([-/.])(?P<m>\d{1,2})\2(?P<d>\d{1,2})",
        r"(?P<d>\d{1,2})\.\s*(?P<m>\d{1,2})\.\s*(?P<y>\d{4})",
        r"(?P<d>\d{1,2})([-/])(?P<m>\d{1,2})\2(?P<y>\d{4})",
        r"(?P<m>\d{1,2})([-/])(?P<d>\d{1,2})\2(?P<y>\d{4})",
        rf"{_DAY}(?:{_APART}|-)(?:of\s+)?{_MONTH}(?:{_APART}|-){_YEAR}",
        rf"{_MONTH}{_APART}{_DAY}{_APART}{_YEAR}",
        rf"{_YEAR}{_APART}{_MONTH}{_APART}{_DAY}",
    )
)
"""What stands where; between points the day comes first, between strokes it may be either."""


def days_meant(written: str) -> tuple[str, ...]:
    """Every day that a text may mean, as 2026-02-01; none where it is no day of the calendar.

    >>> days_meant("Feb 12, 2026"), days_meant("12/02/2026"), days_meant("25/12/2026"), days_meant("2026-02-30")
    (('2026-02-12',), ('2026-02-12', '2026-12-02'), ('2026-12-25',), ())
    """
    found = (form.fullmatch(written.strip()) for form in _FORMS)
    return tuple(dict.fromkeys(day for match in found if match for day in _day(match)))


def _day(match: re.Match[str]) -> list[str]:
    """The day that a text says, where there is such a day."""
    named = [number for number, name in enumerate(MONTHS, 1) if name.startswith(match["m"].casefold())]
    month = int(match["m"]) if match["m"].isdigit() else named[0] if named else 13
    try:
        return [date(int(match["y"]), month, int(match["d"])).isoformat()]
    except ValueError:
        return []
