"""Linear program: the least of a straight-line function under straight-line limits, by HiGHS.

Placement solves small ones by the dozen. HiGHS is called itself: a wrapper that serves all cases
takes longer to check its input than the solver takes to solve it.
"""

from dataclasses import dataclass

import highspy
import numpy as np
from scipy.sparse import csr_array

from holeplacer.medial_axis.ways import Floats


@dataclass(frozen=True, eq=False)
class Solved:
    """The best there is.

    Attributes:
        x: (n,) the variables.
        prices: (m,) what the least would change by if a limit were one more; nothing for limits
            that don't bind.
    """

    x: Floats
    prices: Floats


class LinearSolver:
    """HiGHS made ready; to be used by one thread at a time."""

    def __init__(self) -> None:
        """Make it ready."""
        self._solver = _Quiet()
        self._solver.setOptionValue("output_flag", False)
        self._solver.setOptionValue("presolve", "off")

    def least(
        self, cost: Floats, rows: csr_array, most: Floats, low: Floats, high: Floats
    ) -> Solved | None:
        """Least cost @ x with rows @ x <= most and low <= x <= high; None if there is none.

        Args:
            cost: (n,).
            rows: (m, n).
            most: (m,).
            low: (n,); may be infinite.
            high: (n,); may be infinite.
        """
        program = highspy.HighsLp()
        program.num_col_, program.num_row_ = rows.shape[1], rows.shape[0]
        program.col_cost_, program.col_lower_, program.col_upper_ = cost, low, high
        program.row_lower_, program.row_upper_ = np.full(len(most), -np.inf), most
        program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        program.a_matrix_.start_ = rows.indptr
        program.a_matrix_.index_ = rows.indices
        program.a_matrix_.value_ = rows.data.astype(float)
        self._solver.passModel(program)
        self._solver.run()
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        solution = self._solver.getSolution()
        return Solved(np.array(solution.col_value), np.array(solution.row_dual))


class _Quiet(highspy.Highs):
    """HiGHS without callbacks: setting them up prints a banner."""

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()
