"""Drawing unit of a DXF file, by its header variable $INSUNITS.

$MEASUREMENT only chooses hatch and line pattern files; it states no unit and is not asked.
"""

import numpy as np

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_sections import Sections

INSUNITS = {
    1: "in",
    2: "ft",
    4: "mm",
    5: "cm",
    6: "m",
    9: "mil",
    10: "yd",
    13: "um",
    14: "dm",
}
"""Codes of $INSUNITS (DXF reference, header variables; the same in the enumeration of ezdxf
1.4.5). 0 is unitless; miles, kilometres and the astronomical ones are no units of a sign."""


def stated_units(records: Records, sections: Sections) -> str | None:
    """Name in `units.DRAWING_UNITS_MM` of the unit the file states, None if it states none."""
    tags = records.tags
    first, last = sections.header
    names = first + np.flatnonzero(tags.code[first:last] == 9)
    for tag, name in zip(names.tolist(), tags.raw(names), strict=True):
        if name.upper() == b"$INSUNITS" and tag + 1 < last and tags.code[tag + 1] == 70:
            code = tags.numbers(np.array([tag + 1]))[0]
            return INSUNITS.get(int(code)) if np.isfinite(code) else None
    return None
