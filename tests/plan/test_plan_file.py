"""Plan files: round trip, damage, crash-safety."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.errors import InputError, PlanFileError
from holeplacer.loads.loading import (
    METHODS,
    WALL_ZONES,
    Asce7Site,
    Loading,
    WallFixing,
    WoodScrew,
)
from holeplacer.plan import edit, plan_file
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import PREPARATIONS, TURNINGS, Feeds, SectionsChoice
from holeplacer.sheet.metal import Metal
from holeplacer.sheet.stock import Stock
from holeplacer.standoffs import clearance_hole
from holeplacer.wall.as_found import AsFound, Revision
from holeplacer.wall.fastener import FASTENER_KINDS, REACHES, Fastener
from holeplacer.wall.layer import LAYER_KINDS, Layer
from holeplacer.wall.photo import Photo, PhotoPoint
from holeplacer.wall.wall import ACROSS, LANDINGS, UP, Elevation, Placing, Wall
from holeplacer.wall.zone import ZONE_KINDS, Studs, Zone

place = st.floats(-1e5, 1e5)
size = st.floats(0.05, 5e3)
maybe_size = st.none() | size
text = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="/\\\0"), min_size=1)


def sized(width, height, known, scale):
    """At most one way to give the size."""
    return {"width_mm": width} if width else {"height_mm": height} if height else (
        {"known": known} if known else {"scale": scale}
    )  # fmt: skip


readings = st.builds(
    lambda units, layers, width, height, known, scale, turn, mirror, tolerance: ReadOptions(
        units=units,
        layers=layers,
        rotation_rad=turn,
        mirror=mirror,
        tolerance_mm=tolerance,
        **sized(width, height, known, scale),
    ),
    st.none() | st.sampled_from(["mm", "in", "px"]),
    st.none() | st.lists(st.text(max_size=9), max_size=3).map(tuple),
    maybe_size,
    maybe_size,
    st.none() | st.builds(KnownDistance, place, place, st.just(2e5), place, size),
    st.floats(1e-3, 1e3),
    st.floats(-7, 7),
    st.booleans(),
    st.floats(1e-3, 1),
)
holes = st.lists(
    st.builds(Hole, st.integers(1, 9999), place, place, maybe_size, st.booleans(), st.booleans()),
    unique_by=lambda hole: hole.number,
    max_size=8,
).map(lambda found: tuple(sorted(found, key=lambda hole: hole.number)))
own_metals = st.builds(
    Metal,
    st.text("abc-12", min_size=1, max_size=20),
    st.text(max_size=9),
    st.sampled_from(["steel", "copper"]),
    st.sampled_from(["", "aluminium"]),
    st.floats(1e3, 2e4),
    st.floats(1e3, 9e5),
    st.floats(1e3, 4e5),
    st.floats(0, 0.5),
    st.floats(0, 1e-3),
    st.floats(1, 300),
    st.floats(300, 900),
)
points = st.tuples(place, place)
zones = st.builds(
    lambda kind, what, x, y, width, height: Zone(
        kind, what, "rectangle", ((x, y), (x + width, y + height))
    ),
    st.sampled_from(ZONE_KINDS),
    st.text(max_size=9),
    place,
    place,
    size,
    size,
) | st.builds(
    lambda kind, half, one, two: Zone(kind, "pipe", "band", (one, (2e5, two)), half),
    st.sampled_from(ZONE_KINDS),
    size,
    points,
    place,
)
walls = st.builds(
    Wall,
    st.none() | st.builds(Elevation, st.floats(1, 1e5), st.floats(1, 1e5), place),
    st.builds(
        Placing,
        st.sampled_from(ACROSS),
        place,
        st.sampled_from(UP),
        place,
        st.none() | place,
        st.none() | points,
    ),
    st.lists(zones, max_size=3).map(tuple),
    st.lists(st.builds(Studs, place, count=st.integers(1, 99), top_mm=size), max_size=1).map(tuple),
    landing=st.sampled_from(LANDINGS),
    layers=st.lists(
        st.builds(Layer, st.sampled_from(LAYER_KINDS), size, st.text(max_size=9)), max_size=3
    ).map(tuple),
    fastener=st.builds(
        Fastener,
        st.sampled_from(FASTENER_KINDS),
        st.sampled_from(REACHES),
        st.none() | st.floats(1, 90),
    ),
    photo=st.none()
    | st.builds(
        Photo,
        st.just("front.jpg"),
        st.binary(min_size=1, max_size=50),
        st.just(()) | st.tuples(*[st.builds(PhotoPoint, place, place, place, place)] * 2),
    ),
    sign_cut=st.booleans(),
    as_found=st.lists(
        st.builds(AsFound, st.integers(1, 99), st.text(max_size=9), place, place), max_size=2
    ).map(tuple),
    revisions=st.lists(
        st.builds(Revision, st.integers(1, 99), st.lists(st.text(max_size=9)).map(tuple)),
        max_size=2,
    ).map(tuple),
)
plans = st.builds(
    Plan,
    artwork=st.builds(ArtworkFile, text, st.binary(max_size=200)),
    reading=readings,
    sheet=st.builds(
        SheetChoice,
        st.sampled_from(["steel", "aluminium"]),
        st.none() | st.integers(7, 26),
        st.floats(0.3, 12),
        st.sampled_from(["plasma", "laser", "hand"]),
        st.sampled_from(["bare", "powder", "entered"]),
        st.floats(0, 5),
    )
    | st.builds(
        lambda metal, thickness: SheetChoice(metal.name, None, thickness, own_metal=metal),
        own_metals,
        st.floats(0.3, 12),
    ),
    standoff=st.builds(
        StandoffChoice,
        st.text(),
        size,
        size,
        size,
        size,
        size,
        size,
        head=st.sampled_from(["cap", "hex"]),
        bearing_mm=maybe_size,
        stud_material=st.sampled_from(["steel", "brass"]),
        fit=st.sampled_from(clearance_hole.FITS),
        clearance_mm=size,
    ),
    limits=st.builds(
        Limits,
        ligament_mm=size,
        edge_distance_mm=maybe_size,
        spacing_mm=st.floats(1, 1e5),
        turning_share=st.floats(0, 1),
        neighbour_mm=maybe_size,
    ),
    offset_mm=st.floats(-50, 50),
    bosses=st.lists(st.builds(Boss, place, place, size, size), max_size=3).map(tuple),
    holes=holes,
    loading=st.builds(
        Loading,
        method=st.sampled_from(METHODS),
        pressure_out_pa=st.none() | st.floats(1, 9e4),
        asce7=st.builds(Asce7Site, st.none() | st.floats(1, 90), zone=st.sampled_from(WALL_ZONES)),
        deflection_limit_mm=maybe_size,
        fixing=st.builds(WallFixing, maybe_size, screw=st.none() | st.builds(WoodScrew)),
    ),
    seams=st.lists(
        st.builds(Seam, place, place, st.just(2e5), place, st.booleans()), max_size=3
    ).map(tuple),
    sections=st.builds(
        SectionsChoice,
        st.lists(
            st.builds(
                Stock,
                st.floats(1, 9e3),
                st.floats(1, 9e3),
                st.booleans(),
                st.text(max_size=9),
                st.none() | st.integers(0, 99),
            ),
            max_size=2,
        ).map(tuple),
        size,
        travel_width_mm=st.none() | st.floats(1, 9e3),
        preparation=st.sampled_from(PREPARATIONS),
        turning=st.sampled_from(TURNINGS),
        feeds=st.builds(Feeds, st.none() | st.floats(1, 9e3), weld_mm_min=st.just(300.0)),
    ),
    wall=walls,
)


@settings(max_examples=25, deadline=None)
@given(plans)
def test_what_is_saved_is_what_is_opened(plan):
    """Every plan comes back equal, to the last bit of every figure."""
    assert plan_file.plan_from_bytes(plan_file.plan_bytes(plan), "a.holeplan") == plan


def test_the_file_says_what_it_is(plan):
    """Format and version stand first; the artwork is inside."""
    body = json.loads(plan_file.plan_bytes(plan))
    assert list(body) == ["format", "version", "plan"]
    assert (body["format"], body["version"]) == ("holeplan", 5)
    assert body["plan"]["artwork"] == {"name": "gull.svg", "data": "PHN2Zy8+"}


def test_saving_replaces_the_old_file_whole(plan, tmp_path):
    """The new plan is there, nothing else is left in the folder, permissions stay."""
    path = tmp_path / "sign.holeplan"
    plan_file.save_plan(plan, path)
    path.chmod(0o640)
    other = edit.with_hole_added(plan, 1, 2)
    plan_file.save_plan(other, path)
    assert plan_file.load_plan(path) == other
    assert [entry.name for entry in tmp_path.iterdir()] == ["sign.holeplan"]
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_link_is_followed(plan, tmp_path):
    """Saving through a link changes the file it leads to and leaves the link."""
    real, link = tmp_path / "real.holeplan", tmp_path / "link.holeplan"
    plan_file.save_plan(plan, real)
    link.symlink_to(real)
    other = edit.with_offset(plan, 1.0)
    plan_file.save_plan(other, link)
    assert link.is_symlink()
    assert plan_file.load_plan(real) == other


_SAVE_FOR_EVER = """
import sys
from dataclasses import replace
from pathlib import Path
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan import plan_file
path = Path(sys.argv[1])
plan = plan_file.load_plan(path)
big = replace(plan, artwork=ArtworkFile("gull.svg", b"x" * 3_000_000))
print("saving", flush=True)
while True:
    plan_file.save_plan(big, path)
    plan_file.save_plan(plan, path)
"""


@pytest.mark.parametrize("delay", [0.0, 0.013, 0.031, 0.057])
def test_killed_in_the_middle_of_saving_the_file_is_whole(plan, tmp_path, delay):
    """A process killed while it saves leaves a plan that opens: the old one or the new one."""
    path = tmp_path / "sign.holeplan"
    plan_file.save_plan(plan, path)
    process = subprocess.Popen(
        [sys.executable, "-c", _SAVE_FOR_EVER, str(path)], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout.readline() == "saving\n"
    time.sleep(delay)
    process.send_signal(signal.SIGKILL)
    process.wait()
    process.stdout.close()
    found = plan_file.load_plan(path)
    assert found.holes == plan.holes
    assert found.artwork.data in (plan.artwork.data, b"x" * 3_000_000)


def test_a_failed_write_leaves_the_old_file(plan, tmp_path, monkeypatch):
    """When the disk is full the old plan stays and no scrap is left."""
    path = tmp_path / "sign.holeplan"
    plan_file.save_plan(plan, path)

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(PlanFileError, match="no space left"):
        plan_file.save_plan(edit.with_offset(plan, 1.0), path)
    assert plan_file.load_plan(path) == plan
    assert [entry.name for entry in tmp_path.iterdir()] == ["sign.holeplan"]


def test_an_impossible_plan_is_not_saved(plan, tmp_path):
    """What could not be opened again is refused before the file is touched."""
    path = tmp_path / "sign.holeplan"
    with pytest.raises(InputError, match="spacing"):
        plan_file.save_plan(edit.with_limits(plan, Limits(spacing_mm=-1.0)), path)
    assert not path.exists()


def damaged(change):
    """The bytes of a plain plan, changed."""
    plan = Plan(ArtworkFile("gull.svg", b"<svg/>"), holes=(Hole(1, 1.0, 2.0),))
    return change(plan_file.plan_bytes(plan))


def put(old, new):
    return damaged(lambda data: data.replace(old, new, 1))


DAMAGE = {
    "cut short": (damaged(lambda data: data[: len(data) // 2]), "cut short"),
    "empty": (b"", "not a plan"),
    "other JSON": (b'{"type": "FeatureCollection"}', "not a plan"),
    "other format": (put(b'"holeplan"', b'"sheetplan"'), "not a plan"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "not a plan"),
    "not UTF-8": (put(b"gull", b"\xff\xfe\xff"), "damaged"),
    "later version": (put(b'"version": 5', b'"version": 6'), "later program"),
    "no version": (put(b'"version": 5', b'"version": 0'), "no version 0"),
    "version of text": (put(b'"version": 5', b'"version": "2"'), "damaged"),
    "NaN": (put(b"1.519", b"NaN"), "damaged"),
    "infinite": (put(b"1.519", b"1e999"), "thickness_mm"),
    "negative": (put(b"1.519", b"-1.5"), "sheet thickness"),
    "wrong type": (put(b"1.519", b'"thin"'), "thickness_mm"),
    "hole without place": (put(b'"x_mm": 1.0,', b""), r"holes\[0\]"),
    "number twice": (put(b'"holes": [', b'"holes": [{"number":1,"x_mm":0,"y_mm":0},'), "twice"),
    "huge number": (put(b'"number": 1', b'"number": 1' + b"0" * 400), "number"),
    "wind of no standard": (put(b'"method": "none"', b'"method": "gale"'), "gale"),
    "unknown finish": (put(b'"finish": "bare"', b'"finish": "jam"'), "jam"),
    "unknown fit": (put(b'"fit": "normal"', b'"fit": "hopeful"'), "hopeful"),
    "unknown landing": (put(b'"landing": "prefer"', b'"landing": "hope"'), "hope"),
    "bad base64": (put(b"PHN2Zy8+", b"PHN2*y8+"), "base64"),
    "path as name": (put(b"gull.svg", b"../../gull.svg"), "file name"),
    "deep nesting": (b'{"format":"holeplan","version":5,"plan":' + b"[" * 200_000, "damaged"),
    "deep nesting, old": (
        b'{"format":"holeplan","version":1,"plan":{"a":' + b"[" * 100_000 + b"]" * 100_000 + b"}}",
        "damaged",
    ),
    "nothing in it, old": (b'{"format":"holeplan","version":1,"plan":{}}', "damaged"),
    "wrong in it, old": (
        b'{"format":"holeplan","version":1,"plan":{"reading":3,"limits":[],"hole_mm":"x"}}',
        "damaged",
    ),
}


@pytest.mark.parametrize(("data", "said"), DAMAGE.values(), ids=DAMAGE.keys())
def test_damage_is_one_clear_sentence(data, said):
    """No damaged or foreign file gives a traceback; each is named with its file."""
    with pytest.raises(PlanFileError, match=said) as caught:
        plan_file.plan_from_bytes(data, "sign.holeplan")
    assert str(caught.value).startswith("sign.holeplan: ")
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 300


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 1500), st.binary(max_size=6), st.integers(0, 40))
def test_any_damage_is_a_plan_or_an_error(at, patch, cut):
    """Whatever bytes are changed, the file opens as a sound plan or is refused."""
    data = damaged(lambda data: data[:at] + patch + data[at + cut :])
    try:
        plan = plan_file.plan_from_bytes(data, "sign.holeplan")
    except PlanFileError:
        return
    assert plan_file.plan_from_bytes(plan_file.plan_bytes(plan), "again") == plan


@pytest.mark.parametrize("name", [".", "missing/sign.holeplan", "a\0b", "n" * 400])
def test_unusable_places_are_refused(plan, tmp_path, name):
    """A folder, a missing folder, an impossible name: one sentence, reading and writing."""
    path = tmp_path / name
    with pytest.raises(PlanFileError):
        plan_file.save_plan(plan, path)
    with pytest.raises(PlanFileError):
        plan_file.load_plan(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_a_pipe_does_not_block(plan, tmp_path):
    """A pipe nobody writes to is refused at once."""
    path = Path(tmp_path / "pipe.holeplan")
    os.mkfifo(path)
    with pytest.raises(PlanFileError, match="ordinary file"):
        plan_file.load_plan(path)
    with pytest.raises(PlanFileError, match="ordinary file"):
        plan_file.save_plan(plan, path)


def test_a_file_too_large_is_not_read(tmp_path):
    """A sparse giant is refused by its size."""
    path = tmp_path / "giant.holeplan"
    with path.open("wb") as file:
        file.truncate(plan_file.LARGEST_BYTES + 1)
    with pytest.raises(PlanFileError, match="too large"):
        plan_file.load_plan(path)
