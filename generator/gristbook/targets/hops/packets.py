"""Hops by the packet: what to weigh when the packet in hand says other alpha acids than the plan was made with."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.equations import hopping
from gristbook.model.hop import Hop
from gristbook.sheet.value import Value, apply, given, settled
from gristbook.targets.figures import Plan
from gristbook.targets.results import HopFigures

EACH_SIDE = 2
"""Packets below and above the planned one."""

STEPS = (0.001, 0.002, 0.0025, 0.005, 0.01, 0.015, 0.02)
"""Shares of alpha acids from packet to packet: the one that comes nearest to reaching the crops' least and most."""

WEAKEST = 1 / 3
"""No packet is shown that is weaker than this share of the planned one: its cones would drink the kettle."""


@dataclass(frozen=True, slots=True)
class Packet:
    """What a packet may say, and what is weighed from it; ``planned`` where it says what the plan was made with."""

    alpha: Value
    mass: Value
    planned: bool


@dataclass(frozen=True, slots=True)
class PacketRow:
    """An addition that brings bitterness, and its weight from weaker and from stronger packets."""

    hop: Hop
    packets: tuple[Packet, ...]


def packet_rows(plan: Plan) -> tuple[PacketRow, ...]:
    """A row for every addition in the boil or the stand, in the order of the recipe; dry hops go by weight alone."""
    said: dict[tuple[str, float], Value] = {}
    return tuple(
        PacketRow(line.hop, tuple(_packets(line, said)))
        for line in plan.figures.bitterness.hops
        if line.minutes is not None and line.hop.alpha.number > 0
    )


def _packets(line: HopFigures, said: dict[tuple[str, float], Value]) -> Iterator[Packet]:
    """The packets of one addition; additions of one variety share what a packet may say."""
    name, planned = line.hop.name, settled(line.hop.alpha)
    for alpha in alphas(planned.number, *line.hop.crops):
        if alpha == planned.number:
            yield Packet(line.hop.alpha, line.mass, planned=True)
            continue
        label = f"alpha acids of {name} on another packet"
        origin = "as a packet may say"
        packet = said.setdefault((name, alpha), given(alpha, "fraction", label, words=origin))
        mass = apply(
            hopping.hops_for_packet,
            f"weight of {name} from another packet",
            hops_g=settled(line.mass),
            alpha=planned,
            packet_alpha=packet,
        )
        yield Packet(packet, settled(mass), planned=False)


def alphas(planned: float, low: float, high: float) -> tuple[float, ...]:
    """Shares of alpha acids around the planned one, about as far apart as reaches the crops' least and most.

    >>> alphas(0.045, 0.024, 0.061)
    (0.025, 0.035, 0.045, 0.055, 0.065)
    """
    reach = max(high - planned, planned - low) / EACH_SIDE
    least = planned * WEAKEST
    fitting = [step for step in STEPS if planned - EACH_SIDE * step >= least] or [STEPS[0]]
    step = min(fitting, key=lambda step: (abs(step - reach), step))
    around = (round(planned + count * step, 6) if count else planned for count in range(-EACH_SIDE, EACH_SIDE + 1))
    return tuple(alpha for alpha in around if 0 < alpha <= 1)
