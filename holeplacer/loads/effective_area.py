"""Effective wind area: how much wind one part must carry, for coefficients that fall with it.

ASCE 7 26.2: span length times an effective width that need not be less than a third of the span;
for one fastener no more than the area tributary to it. A gust that is strong enough to load a
small area fully is not so over a large one: a smaller area never gives less pressure.
"""

_LEAST_WIDTH_SHARE = 3.0


def effective_area_mm2(span_mm: float, tributary_width_mm: float) -> float:
    """Effective wind area of a stroke between two standoffs.

    Args:
        span_mm: Length of the span.
        tributary_width_mm: Width of metal that hangs on it: its area over its length.

    >>> round(effective_area_mm2(2 * 304.8, 100.0) / 304.8**2, 3)
    1.333
    """
    return span_mm * max(tributary_width_mm, span_mm / _LEAST_WIDTH_SHARE)


def fastener_area_mm2(
    span_mm: float, tributary_width_mm: float, tributary_area_mm2: float
) -> float:
    """Effective wind area of one standoff: as of its span, but not above its tributary area.

    Args:
        span_mm: The longer of the spans that meet in it.
        tributary_width_mm: Width of metal along that span.
        tributary_area_mm2: Area of metal whose wind it carries: its reaction over the pressure.

    >>> fastener_area_mm2(600.0, 50.0, 30_000.0)
    30000.0
    """
    return min(effective_area_mm2(span_mm, tributary_width_mm), tributary_area_mm2)
