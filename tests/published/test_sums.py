"""What reads printed formulas in the tests, held to sums that anybody can do, and to formulas that say too little."""

import pytest
import sums
from terms import NotASum, Numbers

M: dict[str, tuple[float, ...]] = {"mᵢ": (3.0, 1.0)}
P: dict[str, tuple[float, ...]] = {"pᵢ": (0.5, 0.9)}
N: dict[str, tuple[float, ...]] = {"nⱼ": (2.0, 4.0, 8.0)}


@pytest.mark.parametrize(
    ("formula", "numbers", "result"),
    [
        ("E = m p η", {"m": 4.0, "p": 0.5, "η": 0.75}, 1.5),
        ("y = −2² + 3·10⁻¹ × 10", {}, -1.0),
        ("y = 2^(a − 1) − 16^¼ / ½", {"a": 4.0}, 4.0),
        ("T' = V_h T / (V_h + V₀) − T_end", {"V_h": 3.0, "V₀": 1.0, "T": 80.0, "T_end": 20.0}, 40.0),
        ("p = Σ mᵢ pᵢ / Σ mᵢ", M | P, 0.6),
        ("p = Σ mᵢ (pᵢ − 0.5) + 2 Σ nⱼ", M | P | N, 28.4),
        ("p = Π nⱼ / 2 + max nⱼ − min mᵢ", M | N, 15.0),
        ("p = Σ mᵢ", {"mᵢ": ()}, 0.0),
        ("y = 10 log₁₀(a) + ln(e^(2 b)) + √(b b) + |−b| + ⌈0.2 b⌉", {"a": 100.0, "b": 3.0}, 33.0),
        ("y = 2 f(a) g, f(x) = x² − g, g = 1 + a", {"a": 3.0}, 40.0),
        ("y = Σ wᵢ, wᵢ = 1 / max(1, mᵢ)", M, 4 / 3),
        ("y = ∫₀ᵗ 3 s² ds / a", {"t": 2.0, "a": 4.0}, 2.0),
        ("y = t ∫₀¹ e^(s) ds", {"t": 2.0}, 3.4365636569180902),
        ("x such that a / x = x − c, c = 3", {"a": 10.0}, 5.0),
        ("y = table(a) / 100, table(x) = 5 up to 5, 6 up to 10, 30 otherwise", {"a": 10.0}, 0.06),
        ("y = table(a) / 100, table(x) = 5 below 10, 12 below 20, 15 otherwise", {"a": 10.0}, 0.12),
        ("y = table(a), table(x) = 5 up to 5, max(0, 2 x) otherwise", {"a": 6.0}, 12.0),
        ("y = F(a) b, F(x) = 0.8 at 65, 0.7 at 70, 0.5 at 75, b = 2", {"a": 72.5}, 1.2),
        ("y = F(a), F(x) = 0.8 at 65, 0.7 at 70", {"a": 99.0}, 0.7),
    ],
)
def test_a_printed_formula_is_reckoned_as_one_reads_it(formula: str, numbers: Numbers, result: float) -> None:
    assert sums.worked_out(formula, numbers, near=4.5) == pytest.approx(result, rel=1e-9)


@pytest.mark.parametrize(
    ("formula", "numbers"),
    [
        ("vol = table(T)", {"T": 20.0}),
        ("S = R + F² / 1000, F in °F", {"R": 1.05}),
        ("k = e^(−11858 / T), T in kelvin", {"T": 373.15}),
        ("V_h = V ρ(20 °C) / ρ(T)", {"V": 20.0, "T": 99.0}),
        ("c = a / b d", {"a": 1.0, "b": 2.0, "d": 3.0}),
        ("c = a + d", {"a": 1.0}),
        ("c = a", {"a": 1.0, "d": 3.0}),
        ("c = a d, d = 2", {"a": 1.0, "d": 3.0}),
        ("c = a / (b", {"a": 1.0, "b": 2.0}),
        ("c = Σ m", {"m": (1.0, 2.0)}),
        ("c = mᵢ", {"mᵢ": (1.0, 2.0)}),
        ("c = Σ mᵢ pᵢ", {"mᵢ": (1.0, 2.0), "pᵢ": (1.0,)}),
        ("c = Σ mᵢ nⱼ", M | N),
    ],
)
def test_a_formula_that_says_too_little_is_no_sum(formula: str, numbers: Numbers) -> None:
    with pytest.raises(NotASum):
        sums.worked_out(formula, numbers)
