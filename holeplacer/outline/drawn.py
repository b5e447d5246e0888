"""Drawn curves: what the artist drew, kept beside the flattened outline so that it can go out."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Curve, Points


@dataclass(frozen=True, eq=False)
class DrawnCurves:
    """The artwork's own curves in sign coordinates, and which outline vertex came from which.

    A vertex of the outline whose coordinates equal a row of `xy` bit for bit was made by
    flattening `curves[curve[i]]` at parameter `t[i]`. A run of neighbouring vertices of one
    curve with rising or falling parameter is that curve, whole or trimmed. Vertices found in no
    row were made by mending (a crossing of two contours, an offset, a boss).

    Attributes:
        curves: In the artwork's order.
        layers: Layer each curve was on ("" if the format has none); same length as `curves`.
        kinds: The artwork's own name of the entity, such as `SPLINE` or `path`.
        xy: (n, 2) every point that flattening made, mm; the rows of one curve follow each other
            in order of `t`, and those of a closed curve end with its start again.
        curve: (n,) index into `curves`.
        t: (n,) parameter on that curve.
    """

    curves: tuple[Curve, ...]
    layers: tuple[str, ...]
    kinds: tuple[str, ...]
    xy: Points
    curve: NDArray[np.intp]
    t: NDArray[np.float64]

    @cached_property
    def by_place(self) -> tuple[NDArray[np.complex128], NDArray[np.intp]]:
        """The rows of `xy` sorted by place, as x + iy, and the row each sorted one came from."""
        places = np.ascontiguousarray(self.xy + 0.0).view(np.complex128).ravel()
        order = np.argsort(places, kind="stable")
        return places[order], order
