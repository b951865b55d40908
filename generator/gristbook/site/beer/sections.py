"""The anchors of a recipe's page."""

CHART, TABLE = "brews-chart", "table-brews"
"""Its brews, drawn and in numbers."""

SECTIONS = (
    *("main", "about", "ingredients", "water", "method", "bottling", "figures", "charts", "hops", "models", "more"),
    *("table-grist", "table-hops", "table-targets", "table-bitterness", "table-colour", "table-editions", "units"),
    *("editions", "table-water", "advice", "mash", "table-mash", "starter", "topping-up", "instruments", "extract"),
    *("day", "table-strength", "table-energy", "table-ph", "brewed", CHART, TABLE),
)
"""The anchors of a recipe's page, which no heading of the author's may take. Charts have names of their own."""
