"""From a recipe and a brewhouse to every derived figure."""
