"""Facts: what the artwork is, in lines for a person."""

from collections.abc import Iterator, Sequence

import numpy as np

from holeplacer.artwork.account import Entry
from holeplacer.artwork.artwork import Artwork
from holeplacer.evaluation import sign_mass
from holeplacer.evaluation.layout import Layout
from holeplacer.medial_axis.axis import Axis, Branch
from holeplacer.plan.plan import SheetChoice
from holeplacer.sheet.mass import SheetMass
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length, format_mass

_MOST_LINES = 12
_MOST_PLACES = 3


def artwork_facts(layout: Layout) -> Iterator[str]:
    """Size, pieces, strokes, layers, and the whole import account."""
    outline, artwork = layout.outline, layout.artwork
    left, bottom, right, top = outline.bounds_mm
    counters = sum(piece.counters for piece in outline.pieces)
    yield from _table(
        ("Artwork", layout.plan.artwork.name),
        ("Units", _units(artwork)),
        ("Size", both_units(right - left, top - bottom)),
        ("Pieces", f"{len(outline.pieces)}, with {_counted(counters, 'counter')}"),
        ("Metal", f"{outline.area_mm2 / 1e6:.4f} m² ({outline.area_mm2 / 92903.04:.2f} sq ft)"),
        ("Sheet", sheet_words(layout.plan.sheet)),
        ("Mass", mass_words(sign_mass.sign_mass(layout.plan, outline))),
        ("Cut edges", f"{outline.perimeter_mm / 1e3:.2f} m"),
        ("Strokes", _strokes(layout.axis)),
        ("Thinnest", _thinnest(layout.axis)),
        ("Layers", _layers(artwork)),
    )
    account = artwork.account
    yield from _account("Read", account.read)
    yield from _account("Mended", (*account.mended, *layout.changes))
    yield from _account("Left out", account.ignored)


def sheet_words(sheet: SheetChoice) -> str:
    """Metal, gauge, thickness and finish: `16 ga steel, 1.52 mm (0.0598 in), bare`."""
    number = f"{sheet.gauge} ga " if sheet.gauge is not None else ""
    thickness = f"{sheet.thickness_mm:.2f} mm ({sheet.thickness_mm / MM_PER_INCH:.4f} in)"
    finish = sheet.finish if sheet.finish_mm == 0 else f"{sheet.finish} {sheet.finish_mm:g} mm"
    return f"{number}{sheet.metal}, {thickness}, {finish}"


def mass_words(mass: SheetMass) -> str:
    """Mass by density and by the gauge, and where the sign balances."""
    x, y = mass.centre_mm
    nominal = "" if mass.nominal_kg is None else f", by its gauge {_both_masses(mass.nominal_kg)}"
    balance = f"balances at x {x:.1f}, y {y:.1f} mm"
    return f"{_both_masses(mass.mass_kg)} by density{nominal}; {balance}"


def _both_masses(kg: float) -> str:
    return f"{format_mass(kg)} ({format_mass(kg, LengthUnit.INCH)})"


def both_units(*lengths_mm: float) -> str:
    """Lengths in mm and then in inches: `12.7 × 25.4 mm (1/2 in × 1 in)`."""
    mm = " × ".join(format_length(value) for value in lengths_mm)
    inches = " × ".join(format_length(value, LengthUnit.INCH) for value in lengths_mm)
    return f"{mm} ({inches})"


def thinnest_stroke(axis: Axis) -> tuple[float, tuple[float, float]] | None:
    """Least clear width of the strokes and where it is, the tapers of their tips left out.

    A taper is the end of a stroke as far as it only widens from its tip inwards.
    """
    found = [
        (2 * float(branch.clearance[index]), branch.xy[index])
        for branch in axis.branches
        for index in [_narrowest(axis, branch)]
        if index is not None
    ]
    if not found:
        return None
    width, xy = min(found, key=lambda item: item[0])
    return width, (float(xy[0]), float(xy[1]))


def _narrowest(axis: Axis, branch: Branch) -> int | None:
    """Index of a branch's narrowest point outside its tapers."""
    clearance = branch.clearance
    first, last = 0, len(clearance) - 1
    if axis.degree[branch.start] == 1:
        first = _taper(clearance)
    if axis.degree[branch.end] == 1:
        last -= _taper(clearance[::-1])
    if first > last:
        return None
    return first + int(np.argmin(clearance[first : last + 1]))


def _taper(clearance: np.ndarray[tuple[int], np.dtype[np.float64]]) -> int:
    """How many points from the first on only widen."""
    falls = np.flatnonzero(np.diff(clearance) <= 0)
    return int(falls[0]) if len(falls) else len(clearance) - 1


def _units(artwork: Artwork) -> str:
    how = "stated by the file" if artwork.units_stated else "as you said"
    scale = "" if abs(artwork.scale - 1) < 1e-9 else f", scaled by {artwork.scale:.6g}"
    return f"{artwork.units}, {how}{scale}"


def _strokes(axis: Axis) -> str:
    tips = _counted(len(axis.tips), "tip")
    return f"{axis.length_mm / 1e3:.2f} m long, {tips}, {_counted(axis.junctions, 'junction')}"


def _thinnest(axis: Axis) -> str:
    found = thinnest_stroke(axis)
    if found is None:
        return "no stroke"
    width, (x, y) = found
    return f"{both_units(width)} wide at x {x:.1f}, y {y:.1f} mm, tapers of tips left out"


def _layers(artwork: Artwork) -> str:
    if not artwork.layers:
        return "none"
    shown = [
        f"{name or '(no name)'} ({count}{'' if visible else ', hidden'})"
        for name, count, visible in artwork.layers
    ]
    return _shortened(shown, ", ")


def _account(title: str, entries: Sequence[Entry]) -> Iterator[str]:
    """Entries that say the same are one line with their number and their first places."""
    alike: dict[tuple[str, str], list[Entry]] = {}
    for entry in entries:
        alike.setdefault((entry.what, entry.where), []).append(entry)
    if alike:
        yield f"{title}:"
    for (what, where), same in list(alike.items())[:_MOST_LINES]:
        count = sum(entry.count for entry in same)
        layer = f", {where}" if where else ""
        yield f"  {f'{count} × ' if count != 1 else ''}{what}{layer}{_places(same)}"
    if len(alike) > _MOST_LINES:
        yield f"  and {len(alike) - _MOST_LINES} more; --report lists them all"


def _places(entries: Sequence[Entry]) -> str:
    """The first places of entries: `, at x 812.7, y 233.0; x 5.0, y 1.0 and 8 more (mm)`."""
    places = [entry.xy_mm for entry in entries if entry.xy_mm is not None]
    if not places:
        return ""
    shown = "; ".join(f"x {x:.1f}, y {y:.1f}" for x, y in places[:_MOST_PLACES])
    more = sum(entry.count for entry in entries) - len(places[:_MOST_PLACES])
    return f", at {shown}{f' and {more} more' if more > 0 else ''} (mm)"


def _shortened(items: Sequence[str], between: str) -> str:
    shown = between.join(items[:_MOST_LINES])
    more = len(items) - _MOST_LINES
    return f"{shown}{between}and {more} more" if more > 0 else shown


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count or 'no'} {noun}s"


def _table(*rows: tuple[str, str]) -> Iterator[str]:
    wide = max(len(name) for name, _ in rows)
    for name, value in rows:
        yield f"{name:<{wide}}  {value}"
