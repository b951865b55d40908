"""The pages of ingredients, styles and sources."""
