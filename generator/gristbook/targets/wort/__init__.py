"""From the grist to the fermenter: extract, volumes, heat and colour."""
