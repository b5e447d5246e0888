"""A plan to change and keep."""

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.plan import Plan


@pytest.fixture
def plan() -> Plan:
    return Plan(
        ArtworkFile("gull.svg", b"<svg/>"),
        holes=(Hole(1, 10.0, 5.0), Hole(2, 310.0, 6.0, 5.5), Hole(4, 150.0, 5.0, None, True)),
        bosses=(Boss(310.0, 6.0, 9.6, 9.6),),
    )
