"""The anchors of a recipe's page."""

CHART, TABLE = "brews-chart", "table-brews"
"""Its brews, drawn and in numbers."""

SECTIONS = (
    *("main", "about", "changes", "editions", "ingredients", "grist", "hops", "yeast", "extras", "method", "outcome"),
    *("instead", "advice", "brewed", "units"),
)
"""The anchors of a recipe's page, which no heading of the author's may take. Charts have names of their own."""
