"""Gristbook turns a folder of plain-text beer recipes into a cookbook, with every figure worked out."""

__version__ = "0.1.0"
