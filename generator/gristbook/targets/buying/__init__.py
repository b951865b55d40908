"""What to buy, what it costs, and what can stand in for it."""
