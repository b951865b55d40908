"""A brew's figures worked out again with other numbers at their roots: what Monte Carlo draws.

A draw runs down the lineage of the figures, each step in its order, with the numbers of this draw. It knows nothing of
slopes: it asks the equations themselves.
"""

from collections.abc import Callable, Mapping, Sequence
from math import ceil, floor, fsum, prod

from gristbook.sheet.origin import Decided, Given, Read, Reckoned, Taught, Worked
from gristbook.sheet.units import held
from gristbook.sheet.value import Value, lineage

Numbers = list[float]
Step = Callable[[Numbers, Mapping[str, float]], float]


class Replay:
    """The lineage of some values, to be run again.

    What was decided before the brew (a weight read off the scale) keeps the number of the plan.
    """

    def __init__(self, figures: Mapping[str, Value]) -> None:
        self._nodes = list(lineage(*figures.values()))
        self._at = {id(node): n for n, node in enumerate(self._nodes)}
        self.figures = figures
        self.doubts = sorted({doubt for node in self._nodes for doubt in node.doubts})
        self._planned = [node.number for node in self._nodes]
        moved = self._moved()
        steps = ((n, self._step(node)) for n, node in enumerate(self._nodes) if id(node) in moved)
        self._steps = [(n, step, self._nodes[n].unit) for n, step in steps if step]

    def drawn(self, draws: Mapping[str, float]) -> dict[str, float]:
        """Every figure, with every doubt ``draws[name]`` standard deviations off."""
        numbers = self._planned.copy()
        for n, step, unit in self._steps:
            numbers[n] = held(step(numbers, draws), unit)[0]
        return {name: numbers[self._at[id(value)]] for name, value in self.figures.items()}

    def _moved(self) -> set[int]:
        """What a draw can move, by what it was made from: all else keeps the number of the plan."""
        moved = set[int]()
        for node in self._nodes:
            match node.origin:
                case Given(sd=sd) | Taught(sd=sd):
                    moves = bool(sd)
                case Decided():
                    moves = False
                case Read():
                    moves = True
                case Worked(inputs=inputs):
                    values = (one for _, it in inputs for one in (it if isinstance(it, tuple) else (it,)))
                    moves = any(id(value) in moved for value in values)
                case Reckoned(parts=parts):
                    moves = any(id(part) in moved for part in parts)
            moved |= {id(node)} if moves else set()
        return moved

    def _step(self, node: Value) -> Step | None:
        """How a number is made again; nothing where it stays as it is."""
        match node.origin:
            case Given(sd=sd, doubt=doubt) | Taught(sd=sd, doubt=doubt) if sd:
                return lambda _, draws: node.number + sd * draws.get(doubt, 0.0)
            case Given() | Taught() | Decided():
                return None
            case Read(of=of, sd=sd, doubt=doubt):
                # A reading has the parents of what was read, and is one step with it.
                inner = self._step(of) or (lambda _, __: of.number)
                return lambda numbers, draws: inner(numbers, draws) + sd * draws.get(doubt, 0.0)
            case Worked(equation=equation, inputs=inputs):
                where = [(name, self._where(value)) for name, value in inputs]
                return lambda numbers, _: equation.function(
                    **{
                        name: tuple(numbers[one] for one in at) if isinstance(at, tuple) else numbers[at]
                        for name, at in where
                    }
                )
            case Reckoned(sign=sign, parts=parts) as reckoned:
                return _arithmetic(sign, reckoned, [self._at[id(part)] for part in parts])

    def _where(self, value: Value | tuple[Value, ...]) -> int | tuple[int, ...]:
        return tuple(self._at[id(one)] for one in value) if isinstance(value, tuple) else self._at[id(value)]


def _arithmetic(sign: str, node: Reckoned, at: Sequence[int]) -> Step:
    """A sum, a difference, a product or a quotient, with the factor that comes with its units."""
    result, one = _SIGNS[sign], node.parts[-1].number
    factor = {"×": node.slopes[0] / (one or 1.0), "÷": node.slopes[0] * one}.get(sign, 1.0)
    return lambda numbers, _: factor * result([numbers[part] for part in at])


_SIGNS: Mapping[str, Callable[[Numbers], float]] = {
    "+": fsum,
    "−": lambda of: of[0] - of[1],
    "×": prod,
    "÷": lambda of: of[0] / of[1],
    "in steps of": lambda of: max(1, floor(of[0] / of[1] + 0.5 + 1e-9)) * of[1] if of[0] > 0 else 0.0,
    "rounded up": lambda of: float(ceil(of[0] - 1e-6)),
}
