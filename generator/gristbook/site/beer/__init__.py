"""The pages of a beer, and of each of its editions."""
