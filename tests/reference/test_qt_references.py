"""Qt's binding itself: a release that loses references to None kills the process after a while.

Source: measured on PySide6 6.12.0 with Python 3.11 (exactly one reference lost per void call);
6.8.3 to 6.11.3 lose none. Status R.
"""

import sys

from PySide6.QtGui import QPainterPath


def test_calls_that_return_nothing_keep_none_alive():
    """Hundreds of void calls leave the count of references to None where it was."""
    path = QPainterPath()
    before = sys.getrefcount(None)
    for step in range(200):
        path.lineTo(step, step)
    assert sys.getrefcount(None) > before - 50
