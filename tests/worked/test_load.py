"""Six worts worked by hand with the balance of the lauter: a light, a middling and a heavy grist, in a tun and a bag.

All are of one malt of 80 % extract, dry, and 4 % of moisture: 0.768 kg of a kilogram. The extract of a wort is that of
the cubic for degrees Plato, times its gravity, times 0.998203 kg/L.

The tun brings 74 % from its ordinary grist, at 1.045: 11.1957 °P, 0.116785 kg/L. 20 and 1.5 L of it hold 2.51087 kg,
which 2.51087 / (0.74 × 0.768) = 4.4181 kg bring. A kilogram keeps 1.0 L, 0.04 L of its own water, and 0.62 × 0.768 L
for what dissolves: 1.516 L, all of it 6.698 L. Of 24.5 L for an hour's boil 2.7 × 4.4181 − 4.4181 = 7.511 L run off
first and 16.989 L with the sparge: 6.698/14.209 × 6.698/23.688 = 0.1333 stays, 0.8667 runs off, and 0.74/0.8667 =
0.8538 has dissolved.

The bag brings 70 % at 1.050: 12.3876 °P, 0.129837 kg/L. 10 and 0.8 L of it hold 1.40223 kg, which 2.6083 kg bring. A
kilogram keeps 0.7 + 0.04 + 0.62 × 0.768 = 1.216 L, all of it 3.172 L, and of 16.172 L 13 L run off: 0.8039, and
0.70/0.8039 = 0.8708 has dissolved.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from gristbook.problems import Problems
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

BOOK = """\
title: Worked by the load
brewhouses:
  tun: {batch: 20 L, efficiency: 74 %, boil-off: 3 L/h, left in kettle: 1.5 L, absorption: 1.0 L/kg}
  bag: {batch: 10 L, efficiency: 70 % at 1.050, boil-off: 2.2 L/h, left in kettle: 0.8 L, mash: bag}
"""

RECIPE = """\
---
title: Worked by the load
brewhouse: {house}
batch: {batch}
boil: {boil} min
malts:
  - {kg} kg pale ale malt, 80 % extract, 4 % moisture
hops:
  - 10 g Fuggle, 4.5 % alpha, 60 min
yeast:
  - 60 g english ale yeast, attenuative, dried
mash:
  - 67 °C, 60 min
---
"""


@pytest.mark.parametrize(
    ("house", "batch", "boil", "kg", "efficiency", "gravity"),
    [
        # 5.003 L stay; 5.610 and 18.890 L: 5.003/10.613 × 5.003/23.893 = 0.0987, 0.9013 × 0.8538 × 2.5344 = 1.9503 kg.
        ("tun", "20 L", 60, 3.30, 0.7695, 1.0350),
        # 9.628 L stay; 10.795 and 13.705 L: 9.628/20.423 × 9.628/23.333 = 0.1945, 0.8055 × 0.8538 × 4.8768 = 3.3540 kg.
        ("tun", "20 L", 60, 6.35, 0.6877, 1.0600),
        # In two hours' boil 27.5 L: 17.057 L stay; 19.125 and 8.375 L: 17.057/36.182 × 17.057/25.432 = 0.3162,
        # 0.6838 × 0.8538 × 8.64 = 5.0446 kg.
        ("tun", "20 L", 120, 11.25, 0.5839, 1.0900),
        # 2.067 L stay, 13/15.067 = 0.8628 × 0.8708 × 1.3056 = 0.9809 kg.
        ("bag", "10 L", 60, 1.70, 0.7513, 1.0350),
        # 4.013 L stay, 13/17.013 = 0.7641 × 0.8708 × 2.5344 = 1.6864 kg.
        ("bag", "10 L", 60, 3.30, 0.6654, 1.0601),
        # 7.139 L stay, 13/20.139 = 0.6455 × 0.8708 × 4.5082 = 2.5341 kg.
        ("bag", "10 L", 60, 5.87, 0.5621, 1.0900),
    ],
)
def test_a_grist_goes_by_its_load_as_worked_by_hand(
    tmp_path: Path, house: str, batch: str, boil: int, kg: float, efficiency: float, gravity: float
) -> None:
    (tmp_path / "book.yaml").write_text(BOOK, "utf-8")
    (tmp_path / "wort.md").write_text(RECIPE.format(house=house, batch=batch, boil=boil, kg=kg), "utf-8")
    problems = Problems()
    book = read_book(tmp_path, problems)
    assert book is not None
    (plan,) = plan_book(book, problems)
    assert plan.named["mash-efficiency"].number == pytest.approx(efficiency, abs=0.0002)
    assert plan.named["original-gravity"].number == pytest.approx(gravity, abs=0.0001)
