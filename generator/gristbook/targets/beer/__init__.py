"""From the fermenter to the glass."""
