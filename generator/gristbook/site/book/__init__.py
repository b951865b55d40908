"""The pages of the book as a whole, and what other programs read of it."""
