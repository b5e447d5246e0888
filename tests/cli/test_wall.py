"""The wall on the command line."""

from holeplacer.evaluation import layout
from holeplacer.plan import plan_file
from holeplacer.wall import placing


def proposed(run, bar, tmp_path, *given):
    plan = tmp_path / "walled.holeplan"
    status, out, err = run("propose", bar, *given, "--save", plan)
    return status, out, err, (plan_file.load_plan(plan) if plan.exists() else None)


def test_what_is_said_of_the_wall_is_in_the_plan(run, bar, tmp_path):
    """Size, ground, place, layers in order, framing, fastener."""
    _, _, err, plan = proposed(
        run, bar, tmp_path, "--wall", "20 x 10 ft", "--ground", "1ft", "--at",
        "centred, ground 8ft", "--wall-layer", "cladding 3/8in: stucco",
        "--wall-layer", "soft 3/4in: foam", "--wall-layer", "structure 90mm",
        "--studs", "16in from 4in wide 1 1/2in", "--embedment", "40mm",
    )  # fmt: skip
    assert err == ""
    wall = plan.wall
    assert (wall.elevation.width_mm, wall.elevation.ground_mm) == (6096.0, 304.8)
    assert [layer.kind for layer in wall.layers] == ["cladding", "soft", "structure"]
    assert len(wall.studs) == 1
    assert wall.fastener.embedment_mm == 40.0


def test_no_hole_is_placed_where_the_wall_must_not_be_drilled(run, bar, tmp_path):
    """The beam lies behind the middle; the holes go beside it."""
    given = ("--wall", "20m x 10m", "--at", "centred, middle")
    _, _, _, free = proposed(run, bar, tmp_path, *given)
    placed = free.holes[len(free.holes) // 2]
    dx, dy = placing.translation(free.wall, layout.lay_out(free).outline.bounds_mm)
    x, y = placed.x_mm + dx, placed.y_mm + dy
    beam = f"pipe: {x - 3:.2f}, {y - 3:.2f} to {x + 3:.2f}, {y + 3:.2f}"
    _, _, _, plan = proposed(run, bar, tmp_path, *given, "--blocked", beam, "--clear", "5mm")
    assert len(plan.wall.zones) == 1
    near = [abs(h.x_mm + dx - x) < 8 and abs(h.y_mm + dy - y) < 8 for h in plan.holes]
    assert not any(near)


def test_what_needs_the_walls_size_says_so(run, bar, tmp_path):
    """One sentence, status 2."""
    for given in (("--ground", "1m"), ("--at", "left 10mm, bottom 10mm")):
        status, _, err, _ = proposed(run, bar, tmp_path, *given)
        assert status == 2
        assert "--wall" in err


def test_what_can_not_be_read_is_one_sentence(run, bar, tmp_path):
    """A zone without a second corner, a layer of no known kind."""
    for given in (("--blocked", "beam: 40in"), ("--wall-layer", "jelly 3mm")):
        status, _, err, _ = proposed(run, bar, tmp_path, *given)
        assert status == 2
        assert "Traceback" not in err
