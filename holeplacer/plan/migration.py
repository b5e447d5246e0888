"""Migration: plan files of earlier versions, brought to the present form step by step.

Version 1 held one hole diameter instead of a standoff, its rotation in degrees, its holes in
order without numbers, and knew neither rule sets nor offset nor bosses.

Version 2 knew neither finish nor own metals, of the standoff no more than five diameters, the
projection and the hole, and nothing of loads.

Version 3 knew nothing of seams and of the sheets at hand.

Version 4 knew nothing of the wall, of holes without a fastener, of sections laid by hand and of the
size of the coupon.
"""

import math
from collections.abc import Callable
from typing import Any

from holeplacer.standoffs import standoff

VERSION = 5
"""The version written today."""

_VERSION_1_PROJECTION_MM = 25.4

Body = dict[str, Any]
"""A plan as JSON holds it; what is in it is checked only after the last step."""


def migrated(body: Body, version: int) -> Body:
    """A plan's JSON in today's form.

    Args:
        body: The plan as it was written; not changed.
        version: Version it was written by, 1 to `VERSION`.

    Raises:
        KeyError: An entry that every file of that version has is missing.
        TypeError: An entry is of the wrong kind.
        ValueError: An entry's value can't be meant.
    """
    for step in range(version, VERSION):
        body = _STEPS[step](body)
    return body


def _from_version_1(old: Body) -> Body:
    reading = dict(old["reading"])
    reading["rotation_rad"] = math.radians(reading.pop("rotation_deg"))
    limits = {name: old["limits"][name] for name in _VERSION_1_LIMITS if name in old["limits"]}
    hardware = standoff.standoff_for_hole(float(old["hole_mm"]), _VERSION_1_PROJECTION_MM)
    return {
        "artwork": old["artwork"],
        "reading": reading,
        "sheet": old["sheet"],
        "standoff": {name: getattr(hardware, name) for name in _STANDOFF},
        "limits": limits,
        "offset_mm": 0.0,
        "bosses": [],
        "holes": [
            {"number": number, "x_mm": hole["x_mm"], "y_mm": hole["y_mm"], "fixed": hole["fixed"]}
            for number, hole in enumerate(old["holes"], start=1)
        ],
    }


def _from_version_2(old: Body) -> Body:
    return old | {
        "sheet": old["sheet"] | {"finish": "bare", "finish_mm": 0.0, "own_metal": None},
        "standoff": old["standoff"]
        | {
            "head": "cap",
            "washer_behind_mm": 0.0,
            "bearing_mm": None,
            "stud_material": "steel",
            "fit": "normal",
            "clearance_mm": 0.8,
        },
        "loading": {"method": "none"},
    }


def _from_version_3(old: Body) -> Body:
    return old | {"seams": [], "sections": {"stock": []}}


def _from_version_4(old: Body) -> Body:
    return old | {"wall": {}}


_VERSION_1_LIMITS = ("ligament_mm", "edge_distance_mm", "spacing_mm", "overhang_mm")
_STANDOFF = (
    "name",
    "stud_mm",
    "hole_mm",
    "barrel_mm",
    "cap_mm",
    "washer_mm",
    "projection_mm",
)
_STEPS: dict[int, Callable[[Body], Body]] = {
    1: _from_version_1,
    2: _from_version_2,
    3: _from_version_3,
    4: _from_version_4,
}
