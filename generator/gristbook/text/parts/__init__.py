"""What may stand in a line of each section of a recipe, described once: every part of every kind of line."""
