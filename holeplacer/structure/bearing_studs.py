"""Bearing studs: elastic cantilevers in holes with room, and where the sheet comes to rest on them.

Between the sheet and the studs there is no friction but a trace, so that a sign that hangs freely
sideways has one place of rest: what cap and washer clamp is not counted on.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.errors import InputError
from holeplacer.geometry.curve import Points

Floats = NDArray[np.float64]

TRACE = 1e-5
"""Stiffness of a stud within its room, as a share of its own."""
STEPS = 80
"""Most Newton steps."""
AT_REST = 1e-8
"""Force left over, as a share of the greatest."""
ROUNDING = 2e-13
"""Force that a stiff sheet makes of the last digits of its movement, as a share of its stiffness
times the room."""


@dataclass(frozen=True)
class Stud:
    """One stud as the sheet feels it.

    Attributes:
        diameter_mm: Of what is bent: the core where thread is.
        projection_mm: Wall to sheet: its lever arm, soft layers of the wall included.
        elastic_mpa: E of its metal.
        room_mm: How far the sheet can move any way before hole and stud touch: half the
            difference of their diameters.
        guided: Cap and barrel keep the stud's end upright at the sheet; else it may turn.
    """

    diameter_mm: float
    projection_mm: float
    elastic_mpa: float
    room_mm: float = 0.0
    guided: bool = False

    def __post_init__(self) -> None:
        """Refuse what no stud has.

        Raises:
            InputError: A figure is not positive, or the room is negative.
        """
        for value, what in (
            (self.diameter_mm, "diameter"),
            (self.projection_mm, "projection"),
            (self.elastic_mpa, "elastic modulus"),
        ):
            if not (math.isfinite(value) and value > 0.0):
                raise InputError(
                    f"the stud's {what} must be more than zero", remedy="enter a positive figure"
                )
        if not (math.isfinite(self.room_mm) and self.room_mm >= 0.0):
            raise InputError(
                "the hole must not be smaller than its stud", remedy="make the hole larger"
            )

    @property
    def stiffness_n_mm(self) -> float:
        """Force by movement at its end: 3 E I / L^3, guided 12 E I / L^3; I = pi d^4 / 64."""
        inertia = math.pi * self.diameter_mm**4 / 64.0
        return (12.0 if self.guided else 3.0) * self.elastic_mpa * inertia / self.projection_mm**3


@dataclass(frozen=True, eq=False)
class Rest:
    """Where one piece comes to rest.

    Attributes:
        forces: (k, 2) what each hole pushes its stud with, N.
        movement: (k, 2) of each hole, free expansion included, mm.
        settled: Whether rest was found.
        sheet: (2k,) movement of the holes without free expansion, mm.
    """

    forces: Floats
    movement: Floats
    settled: bool
    sheet: Floats


def at_rest(
    stiff: Floats, load: Floats, free: Points, stud: Stud, start: Floats | None = None
) -> Rest:
    """Least energy of an elastic sheet on elastic studs with room.

    Args:
        stiff: (2k, 2k) stiffness of the sheet at its holes, u and v of each.
        load: (2k,) forces that hold the sheet's holes in place, N.
        free: (k, 2) movement of the holes by free expansion, mm.
        stud: All studs.
        start: (2k,) movement of the sheet to begin at; None: unbent, let down. There is one place
            of rest wherever one begins.
    """
    away = free.ravel()
    moved = _dropped(load, stud) if start is None else start
    rounding = ROUNDING * float(np.abs(stiff).max()) * max(stud.room_mm, 1e-3)
    least = max(float(np.abs(load).max()), stud.stiffness_n_mm * 1e-6)
    allowed = max(AT_REST * least, rounding)
    settled = False
    for _ in range(STEPS):
        push, blocks = _pushes(moved + away, stud)
        lacking = load - stiff @ moved - push
        if float(np.abs(lacking).max()) <= allowed:
            settled = True
            break
        tangent = stiff.copy()
        _add_blocks(tangent, blocks)
        step = _solved(tangent, lacking)
        moved = moved + _length(stiff, load, away, stud, moved, step, lacking) * step
    forces = (load - stiff @ moved).reshape(-1, 2)
    return Rest(forces, (moved + away).reshape(-1, 2), settled, moved)


def _dropped(load: Floats, stud: Stud) -> Floats:
    """The unbent sheet let down until its holes rest on the studs: a good place to begin."""
    pull = load.reshape(-1, 2).sum(axis=0)
    size = float(np.hypot(*pull))
    towards = pull / size if size > 0 else np.zeros(2)
    return np.tile(towards * stud.room_mm, len(load) // 2)


def _solved(matrix: Floats, right: Floats) -> Floats:
    """Solve; where the sheet is so stiff that digits are lost, by least squares."""
    try:
        found = np.asarray(np.linalg.solve(matrix, right), float)
    except np.linalg.LinAlgError:
        found = np.asarray(np.linalg.lstsq(matrix, right, rcond=None)[0], float)
    return found


def _pushes(movement: Floats, stud: Stud) -> tuple[Floats, Floats]:
    """(2k,) forces on the studs, and (k, 2, 2) their change by each one's own movement."""
    at = movement.reshape(-1, 2)
    far = np.maximum(np.hypot(at[:, 0], at[:, 1]), 1e-300)
    towards = at / far[:, None]
    k, trace = stud.stiffness_n_mm, TRACE * stud.stiffness_n_mm
    beyond = np.maximum(far - stud.room_mm, 0.0)
    push = (k * beyond[:, None]) * towards + trace * at
    across = k * beyond / far
    along = np.where(beyond > 0.0, k - across, 0.0)
    blocks = along[:, None, None] * (towards[:, :, None] * towards[:, None, :])
    blocks[:, 0, 0] += across + trace
    blocks[:, 1, 1] += across + trace
    return push.ravel(), blocks


def _add_blocks(matrix: Floats, blocks: Floats) -> None:
    """Add 2 x 2 blocks along the diagonal."""
    count = len(blocks)
    index = np.arange(count)
    matrix.reshape(count, 2, count, 2)[index, :, index, :] += blocks


def _length(
    stiff: Floats,
    load: Floats,
    away: Floats,
    stud: Stud,
    moved: Floats,
    step: Floats,
    lacking: Floats,
) -> float:
    """Share of a step that lowers the energy enough.

    Along the step the sheet's own energy is a parabola; only that of the studs is reckoned anew.
    """
    at = moved + away
    rising = float(step @ (stiff @ moved - load))
    bending = 0.5 * float(step @ (stiff @ step))
    before, slope = _studs_energy(at, stud), -float(step @ lacking)
    length = 1.0
    while length > 1e-6:
        change = length * (rising + length * bending)
        after = change + _studs_energy(at + length * step, stud)
        if after <= before + 1e-4 * length * slope + 1e-15 * (abs(before) + abs(change)):
            break
        length *= 0.5
    return length


def _studs_energy(movement: Floats, stud: Stud) -> float:
    square = (movement * movement).reshape(-1, 2).sum(axis=1)
    beyond = np.maximum(np.sqrt(square) - stud.room_mm, 0.0)
    return 0.5 * stud.stiffness_n_mm * float(beyond @ beyond + TRACE * square.sum())
