"""A small recipe that is sound, as several rooms' tests save it."""

MILD = """\
---
title: Reed Bank Mild
batch: 20 L
malts:
  - 2.4 kg pale ale malt
  - 300 g caramel malt 60
hops: 30 g Fuggle, 4.5 % alpha, 60 min
yeast: 7 g english ale yeast, attenuative, dried
mash: 68 °C, 60 min
ferment: 19 °C, 10 days
carbonation: 1.8 volumes, primed with table sugar
---
"""

STORY = "Dark, and drunk in the afternoon.\n"
"""What may stand below it."""
