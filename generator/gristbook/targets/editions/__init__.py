"""The same beer in another kettle, another size, or from malt extract: sized, swapped, rounded, worked out again."""
