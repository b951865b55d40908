"""Pictures of plain numbers, as SVG that follows the page's colours. No chart knows what a recipe is."""
