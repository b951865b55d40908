"""The working of every figure: each step once, with a row for every kettle."""
