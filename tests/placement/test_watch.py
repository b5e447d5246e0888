"""Watch: patience and progress."""

import pytest

from holeplacer.errors import Cancelled
from holeplacer.placement.watch import Watch


def test_tells_progress():
    """Share and text reach whoever listens."""
    told = []
    Watch(progress=lambda share, text: told.append((share, text))).tell(0.5, "piece 1")
    assert told == [(0.5, "piece 1")]


def test_stops():
    """Once cancelled, the next look stops the work, and so does telling progress."""
    watch = Watch(cancelled=lambda: True)
    with pytest.raises(Cancelled):
        watch.look()
    with pytest.raises(Cancelled):
        watch.tell(0.1, "piece 1")


def test_goes_on():
    """Nobody listens, nobody stops it."""
    Watch().tell(0.1, "piece 1")
    Watch(cancelled=lambda: False).look()
