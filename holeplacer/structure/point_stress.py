"""Point stress: how each standoff bends and twists the very beam it stands on, between its ends.

What the ends' movements tell of a beam is right for a beam loaded at its ends. A standoff between
them adds what it would do to a beam held fast at both ends, and where it stands the bending moment
has its peak, which no end sees.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.structure import beam
from holeplacer.structure.feet import Strokes

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

SAME = 1e-6
"""Standoffs nearer to each other along a beam, as a share of it, stand across from each other."""


@dataclass(frozen=True, eq=False)
class PointStress:
    """Beams of a piece, two gauges each: first all first ends, then all last ends.

    Attributes:
        strokes: The beams.
        modulus: (m,) bending moment by stress, mm3.
        polar: (m,) torque by shear stress, mm3.
        between: (m,) stress that 1 N/mm2 makes at the ends of a beam held fast there, MPa.
    """

    strokes: Strokes
    modulus: Floats
    polar: Floats
    between: Floats

    def added(self, plain: Floats, xy: Points, forces: Floats) -> tuple[Floats, Indices, Floats]:
        """Stress components with what the standoffs add, and their peaks.

        Args:
            plain: (3, 2m) along, across and shear of all gauges, from the ends' movements.
            xy: (k, 2) standoffs.
            forces: (k, 1 or 3) what they pull back with, moments on both slopes last.

        Returns:
            The components; the gauge nearest to each side of each standoff; the von Mises stress
            there.
        """
        feet = self.strokes.feet(xy)
        on = np.flatnonzero(feet.beam >= 0)
        whole, count = plain.copy(), len(self.modulus)
        if not len(on):
            return whole, np.empty(0, np.intp), np.empty(0)
        feet = feet.taken(on)
        rows, number = self.strokes.rows(feet), feet.beam
        step = self.strokes.step[number]
        ends, here = np.zeros((len(on), 6)), np.zeros((len(on), 3))
        local = self.strokes.at_feet(feet)
        for row, own, pull in zip(rows, local, forces[on].T, strict=False):
            ends -= row.values * pull[:, None]
            here -= own * pull[:, None]
        ends = np.einsum("kij,kj->ki", beam.turning(step), ends)
        np.add.at(whole[0], number, ends[:, 1] / self.modulus[number])
        np.add.at(whole[0], count + number, -ends[:, 4] / self.modulus[number])
        np.add.at(whole[2], number, ends[:, 2] / self.polar[number])
        np.add.at(whole[2], count + number, -ends[:, 5] / self.polar[number])
        bent, twisted = self._sides(whole, number, feet.share, here, np.hypot(*step.T))
        gauge = number + np.where(feet.share < 0.5, 0, count)
        return whole, np.tile(gauge, 2), np.sqrt(bent**2 + 3.0 * twisted**2).ravel()

    def _sides(
        self, whole: Floats, number: Indices, share: Floats, here: Floats, length: Floats
    ) -> tuple[Floats, Floats]:
        """(2, k) bending and shear stress just before and just behind each standoff.

        Args:
            whole: Components at the ends.
            number: (k,) beam of each standoff.
            share: (k,) its place along that beam.
            here: (k, 3) its force, and its moments on the slopes along and across.
            length: (k,) of that beam.
        """
        count = len(self.modulus)
        same = number[:, None] == number[None, :]
        at, other = share[:, None], share[None, :]
        force, along, across = here.T
        # bending of a beam that rests on its ends: by forces, by moments put on between
        led = np.where(at <= other, at * (1.0 - other), other * (1.0 - at)) * length
        bent = (1.0 - share) * whole[0, number] + share * whole[0, count + number]
        bent = bent - 6.0 * share * (1.0 - share) * self.between[number]
        bent -= (same * led) @ force / self.modulus[number]
        bent += share * (same @ along) / self.modulus[number]
        sides_bent, sides_twisted = [], []
        for passed in (at > other + SAME, at >= other - SAME):
            jump = same * passed
            sides_bent.append(bent - jump @ along / self.modulus[number])
            sides_twisted.append(whole[2, number] - jump @ across / self.polar[number])
        return np.stack(sides_bent), np.stack(sides_twisted)
