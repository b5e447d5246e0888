"""Deflection: how far a stroke may lean out of the sign's plane.

No building code gives a figure for signs; what is used is that of like things, and said so.
"""

from holeplacer import resources
from holeplacer.resistance import given, utilisation
from holeplacer.resistance.utilisation import Given, Utilisation


def check_limit(deflection_mm: float, limit_mm: float | None) -> Utilisation:
    """Against a limit in mm.

    Args:
        deflection_mm: Magnitude.
        limit_mm: What the person allows; None: not entered, and the utilisation is not known.

    Raises:
        InputError: The limit is not above 0, or the deflection negative.
    """
    if limit_mm is not None:
        given.positive(limit_mm, "the deflection limit in mm")
    limit = () if limit_mm is None else (Given("w lim", limit_mm, "mm", "entered limit"),)
    return utilisation.of(
        "deflection",
        deflection_mm,
        limit_mm,
        "mm",
        formula="w <= w lim",
        inputs=(Given("w", deflection_mm, "mm", "greatest deflection"), *limit),
        source="entered",
        status="E",
        note="" if limit_mm is not None else "no limit entered",
    )


def check_ratio(
    deflection_mm: float, length_mm: float, ratio: float, *, overhang: bool = False
) -> Utilisation:
    """Against a share of the span, or of the overhang beyond the last hole.

    Args:
        deflection_mm: Magnitude; of a span, off the line between its ends.
        length_mm: Span or overhang along the stroke.
        ratio: Span over the greatest deflection allowed, such as 60.
        overhang: The length is one, held at one end.

    Raises:
        InputError: Length or ratio are not above 0, or the deflection negative.
    """
    given.positive(length_mm, "the span in mm")
    given.positive(ratio, "the deflection ratio")
    of = "overhang" if overhang else "span"
    source, status = _ratio_source(ratio, of)
    return utilisation.of(
        f"deflection of {'an overhang' if overhang else 'a span'}",
        deflection_mm,
        length_mm / ratio,
        "mm",
        formula=f"w <= L/{ratio:g}",
        inputs=(
            Given("w", deflection_mm, "mm", f"greatest deflection of the {of}"),
            Given("L", length_mm, "mm", f"{of} along the stroke"),
        ),
        source=source,
        status=status,
    )


def _ratio_source(ratio: float, of: str) -> tuple[str, str]:
    for row in resources.table("deflection_ratios"):
        if row["of"] == of and abs(float(row["ratio"]) - ratio) < 1e-9:
            return row["source"], row["status"]
    return "entered; no code figure for signs", "E"
