"""The pages of what was brewed, and of the brewhouses that learned from it."""
