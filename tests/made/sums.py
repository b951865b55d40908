"""Formulas worked out as they are printed: read letter by letter, with nothing known of what stands behind them.

A line is an equation, and what its letters are behind it, each after a comma: `U = 2 c(SG) t, c(x) = x² − 1`. Letters
side by side are a product, and after a stroke they would be ambiguous, so `a / b c` is refused. `Σ` and `Π` go over all
that is multiplied behind them, for each member of the lists whose letters bear their index, as in `Σ mᵢ pᵢ`; `max pᵢ`
is the largest of a list, and `∫₀ᵗ k(s) ds` an integral. `x such that a = b` is solved for x. A table is told in pieces
of its letter, `1.4 up to 2, 1.5 up to 3, x / 2 otherwise` (or `below`), or in points, `0.8 at 65, 0.7 at 70`: straight
lines between them, and at both ends no further.
"""

from __future__ import annotations

import math
import operator
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from terms import Node, NotASum, Numbers, Scope, between, integral, of, pieces, zero

_LETTER = "A-Za-z\u0391-\u039f\u03a1\u03a4-\u03c9°"  # Greek without the signs of sum and product
_TOKEN = re.compile(
    rf"(?P<number>\d+(?:\.\d+)?(?:·10⁻?[⁰¹²³⁴-⁹]+)?|[½¼])"
    rf"|(?P<name>[{_LETTER}][{_LETTER}₀-₉]*(?:_[{_LETTER}₀-₉0-9]+)?'*[ᵢⱼ]?)"
    r"|(?P<raised>⁻?[⁰¹²³⁴-⁹]+)|(?P<integral>∫₀[¹ᵗ])|(?P<sign>[+−×·/÷^(),=|√ΣΠ⌈⌉])| +"
)
_DOWN = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_PARTS = {"½": 0.5, "¼": 0.25}
_KNOWN: Mapping[str, Callable[..., float]] = {"ln": math.log, "log₁₀": math.log10, "max": max, "min": min}
_OVER: Mapping[str, Callable[[Iterable[float]], float]] = {"Σ": math.fsum, "Π": math.prod, "max": max, "min": min}
_INDICES, _WORDS = frozenset("ᵢⱼ"), ("up", "below", "at", "otherwise", "ds")


def worked_out(formula: str, numbers: Numbers, near: float = 1.0) -> float:
    """What a formula gives for the numbers of its letters; where it is to be solved, what it gives next to ``near``.

    >>> worked_out("E = Σ mᵢ pᵢ / V", {"mᵢ": (3.0, 1.0), "pᵢ": (0.5, 0.7), "V": 11.0})
    0.2
    >>> worked_out("x such that x² = a", {"a": 9.0}, near=2.9)
    3.0

    Raises
    ------
    NotASum
        It cannot be worked out as it is printed, or a number's letter is not in it.
    """
    line = _read(formula)
    if odd := [letter for letter in numbers if letter not in line.letters or letter in line.told]:
        raise NotASum(f"{', '.join(odd)} cannot be put into it")
    if not line.sought:
        return line.right.do(Scope(numbers, line.told))

    def apart(guess: float) -> float:
        scope = Scope({**numbers, line.sought: guess}, line.told)
        return line.left.do(scope) - line.right.do(scope)

    return zero(apart, near)


@dataclass(frozen=True, slots=True)
class _Line:
    """A formula that was read: both sides, and the letter to solve it for, if any; what is told of letters behind it.

    What is told of a letter is an own letter, empty but for a function, and what stands for it.
    """

    sought: str
    left: Node
    right: Node
    told: Mapping[str, tuple[str, Node]]

    @property
    def letters(self) -> frozenset[str]:
        return self.right.letters.union(
            self.left.letters if self.sought else (), *(it.letters for _, it in self.told.values())
        )


@cache
def _read(formula: str) -> _Line:
    return _Reader(formula).line()


class _Reader:
    """One formula, read from left to right."""

    def __init__(self, formula: str) -> None:
        self._formula, self._next, place = formula, 0, 0
        self._tokens: list[tuple[str, str, int]] = []
        while place < len(formula):
            found = _TOKEN.match(formula, place)
            if found is None:
                raise NotASum(f"{formula[place:]!r} in {formula}")
            if found.lastgroup:
                self._tokens.append((found.lastgroup, found[0], place))
            place = found.end()
        self._tokens.append(("end", "", place))

    def line(self) -> _Line:
        sought = self._name()
        if self._took("such"):
            self._need("that")
            left = self._sum()
        else:
            sought, left = "", Node(lambda _: math.nan)
        self._need("=")
        right, told = self._sum(), {}
        while self._took(","):
            name, parameter = self._name(), ""
            if self._took("("):
                parameter = self._name()
                self._need(")")
            self._need("=")
            told[name] = parameter, self._told(parameter)
        if self._kind() != "end":
            raise self._lost()
        return _Line(sought, left, right, told)

    def _told(self, parameter: str) -> Node:
        """What stands for a letter or a function: a sum, or a table of the function's own letter."""
        last = self._sum()
        word = self._took("up", "below", "at")
        if not word:
            return last
        rows = [(last, self._end(word))]
        while self._goes_on(word):
            last = self._sum()
            if self._took("otherwise"):
                break
            self._need(word)
            rows.append((last, self._end(word)))
        table = {"at": between, "up": pieces(operator.le), "below": pieces(operator.lt)}[word]
        return of(table, Node(lambda scope: scope.of(parameter)), last, *(node for row in rows for node in row))

    def _end(self, word: str) -> Node:
        if word == "up":
            self._need("to")
        return self._sum()

    def _goes_on(self, word: str) -> bool:
        """Whether there is another row: pieces go on to the last, `otherwise`, and points as long as numbers follow."""
        return bool((word != "at" or self._kind(1) == "number") and self._took(","))

    def _sum(self) -> Node:
        whole = of(operator.neg, self._product()) if self._took("−") else self._product()
        while sign := self._took("+", "−"):
            whole = of(operator.add if sign == "+" else operator.sub, whole, self._product())
        return whole

    def _product(self) -> Node:
        whole, divided = self._power(), False
        while True:
            if self._took("×", "·"):
                whole = of(operator.mul, whole, self._power())
            elif self._took("/", "÷"):
                whole, divided = of(operator.truediv, whole, self._power()), True
            elif self._begins_a_factor():
                if divided:
                    raise NotASum(f"what is divided by what in {self._formula}?")
                whole = of(operator.mul, whole, self._power())
            else:
                return whole

    def _begins_a_factor(self) -> bool:
        kind, text, _ = self._tokens[self._next]
        return kind == "integral" or (kind == "name" and text not in _WORDS) or (kind == "sign" and text in "(√ΣΠ⌈")

    def _power(self) -> Node:
        base = self._factor()
        if self._kind() == "raised":
            exponent = float(self._taken()[1].translate(_DOWN))
            return of(lambda a: math.pow(a, exponent), base)
        return of(math.pow, base, self._factor()) if self._took("^") else base

    def _factor(self) -> Node:
        if self._took("√"):
            return of(math.sqrt, self._factor())
        for opening, closing, do in (("(", ")", float), ("|", "|", abs), ("⌈", "⌉", math.ceil)):
            if self._took(opening):
                inner = self._sum()
                self._need(closing)
                return of(do, inner)
        kind, text, place = self._taken()
        if kind == "integral":
            return self._integral(text[-1])
        if kind == "number":
            number = _number(text)
            return Node(lambda _: number)
        if self._tokens[self._next] == ("sign", "(", place + len(text)) and kind == "name":
            return self._called(text)
        if text in _OVER:
            return self._over_a_list(_OVER[text])
        if kind != "name":
            raise self._lost()
        return Node(lambda scope: scope.of(text), frozenset((text,)), _INDICES & {text[-1]})

    def _over_a_list(self, do: Callable[[Iterable[float]], float]) -> Node:
        member = self._product()
        if len(member.free) != 1:
            raise NotASum(f"one index was expected and not {sorted(member.free)}")
        (index,) = member.free
        return Node(lambda scope: do([member.do(it) for it in scope.each(index)]), member.letters)

    def _integral(self, end: str) -> Node:
        """Over s, from nothing to 1 or to t."""
        curve = self._product()
        self._need("ds")

        def whole(scope: Scope) -> float:
            return integral(lambda s: curve.do(scope.put("s", s)), scope.of("t") if end == "ᵗ" else 1.0)

        return replace(curve, do=whole, letters=curve.letters | {"t"} if end == "ᵗ" else curve.letters)

    def _called(self, name: str) -> Node:
        self._need("(")
        given = [self._sum()]
        while self._took(","):
            given.append(self._sum())
        self._need(")")
        if name in _KNOWN:
            return of(_KNOWN[name], *given)
        return replace(given[0], do=lambda scope: scope.called(name, *(it.do(scope) for it in given)))

    def _kind(self, ahead: int = 0) -> str:
        return self._tokens[min(self._next + ahead, len(self._tokens) - 1)][0]

    def _taken(self) -> tuple[str, str, int]:
        if self._kind() == "end":
            raise self._lost()
        self._next += 1
        return self._tokens[self._next - 1]

    def _took(self, *texts: str) -> str:
        return self._taken()[1] if self._tokens[self._next][1] in texts else ""

    def _need(self, text: str) -> None:
        if not self._took(text):
            raise self._lost()

    def _name(self) -> str:
        if self._kind() != "name":
            raise self._lost()
        return self._taken()[1]

    def _lost(self) -> NotASum:
        rest = self._formula[self._tokens[self._next][2] :]
        return NotASum(f"nothing to reckon with at {rest!r} in {self._formula}")


def _number(text: str) -> float:
    mantissa, times, power = text.partition("·10")
    return _PARTS[text] if text in _PARTS else float(f"{mantissa}e{power.translate(_DOWN)}" if times else mantissa)
