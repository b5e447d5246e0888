"""Wall result: where the sign hangs and how it is fixed, in lines for a person."""

from collections.abc import Iterator
from pathlib import Path

from holeplacer.cli.facts import both_units
from holeplacer.documents import hardware_list, wall_report, write
from holeplacer.documents.wall_report import DrillingReport, WallReport
from holeplacer.evaluation.layout import Layout


def lines(layout: Layout) -> Iterator[str]:
    """What is said of the wall; nothing where nothing is known of it."""
    told = wall_report.wall_report(layout)
    if told is None:
        return
    yield from _placed(told)
    yield from _met(told)
    if told.drilling is not None:
        yield from _drilled(told.drilling)


def write_hardware(layout: Layout, folder: Path, keep: tuple[Path, ...]) -> list[str]:
    """Write the hardware list; lines that say where.

    Args:
        layout: The plan with its outline.
        folder: Where to; it exists.
        keep: Files that must not be overwritten.

    Raises:
        ExportError: It could not be written.
    """
    path = folder / "hardware.csv"
    write.replace_file(path, hardware_list.hardware_csv(layout.plan), protected=keep)
    return [f"{'Hardware':<15} {path}"]


def _placed(told: WallReport) -> Iterator[str]:
    placed = told.placed
    if placed.width_mm is None or placed.height_mm is None:
        return
    size = both_units(placed.width_mm, placed.height_mm)
    over = placed.over_ground_mm or 0.0
    yield f"Wall            {size}, the sign's lower edge {both_units(over)} above the ground"
    if placed.beyond_mm > 0:
        yield f"                the sign reaches {both_units(placed.beyond_mm)} beyond it"


def _met(told: WallReport) -> Iterator[str]:
    counts = [(sum(h.ground == kind for h in told.holes), words) for kind, words in _WORDS.items()]
    known = [f"{count} {words}" for count, words in counts if count]
    if known and any(hole.ground != "none" for hole in told.holes):
        yield f"Holes meet      {', '.join(known)}"


def _drilled(told: DrillingReport) -> Iterator[str]:
    deep = "right through" if told.depth_mm is None else f"{both_units(told.depth_mm)} deep"
    length = told.length or f"{told.needed_length_mm:.0f} mm, cut from threaded rod"
    yield (
        f"Fastener        {told.fastener} {both_units(told.diameter_mm)}, {length} long, held "
        f"{both_units(told.embedment_mm)} in {told.layer or 'nothing'}"
    )
    yield f"                drill {told.drill}, {deep}; outside {told.outer_drill}"
    memory = "; from memory, verify" if "M" in told.status else ""
    yield f"                {told.source}{memory}"
    for note in told.notes:
        yield f"                {note}"


_WORDS = {
    "good": "something good",
    "blocked": "something blocked",
    "unknown": "something unknown",
    "none": "a part of the wall of which nothing is known",
}
