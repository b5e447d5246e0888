"""Options as a command line without any gives them."""

import pytest


@pytest.fixture
def given_nothing():
    """Every reading option and choice, none of them given."""
    reading = ["units", "width", "height", "scale", "known_distance", "rotate", "mirror",
               "tolerance", "join"]  # fmt: skip
    choices = ["hole", "ligament", "edge_distance", "spacing", "overhang", "neighbours", "offset",
               "metal", "gauge", "thickness", "process", "rule_set", "standoff", "stud", "cap",
               "washer", "cap_overhang"]  # fmt: skip
    return dict.fromkeys([*reading, *choices]) | {"layers": ()}
