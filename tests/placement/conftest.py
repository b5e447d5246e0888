"""Graphs and independent judges live beside the tests; importable under any import mode."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.plan import Plan


@pytest.fixture
def plan() -> Plan:
    """Default limits: spacing 300 mm, overhang 100 mm."""
    return Plan(ArtworkFile("sign.svg", b""))
