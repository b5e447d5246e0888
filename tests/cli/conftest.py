"""Options as a command line without any gives them."""

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cli import commands
from holeplacer.plan import plan_file
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan


@pytest.fixture
def given_nothing():
    """Every reading option and choice, none of them given."""
    reading = ["units", "width", "height", "scale", "known_distance", "rotate", "mirror",
               "tolerance", "join"]  # fmt: skip
    choices = ["hole", "ligament", "edge_distance", "spacing", "overhang", "neighbours", "offset",
               "metal", "gauge", "thickness", "process", "rule_set", "standoff", "stud", "cap",
               "washer", "cap_overhang", "fit", "finish", "stud_material",
               "head", "washer_behind", "bearing", "projection", "stock", "margin", "seam_clear",
               "apart", "turning", "root_gap", "preparation"]  # fmt: skip
    loads = ["pressure", "pressure_in", "wind", "wind_speed", "building_height", "exposure",
             "terrain", "wall_zone", "design_method", "supports", "deflection_limit",
             "deflection_ratio", "coldest", "hottest", "anchor_tension",
             "anchor_shear", "handling", "installed_at", "lag_screw", "thread",
             "wood_gravity"]  # fmt: skip
    wall = ["wall", "ground", "at", "level_line", "landing", "clear", "fastener", "reach",
            "embedment"]  # fmt: skip
    several = ["layers", "blocked", "good", "unknown", "studs", "wall_layer"]
    return dict.fromkeys([*reading, *choices, *loads, *wall]) | dict.fromkeys(several, ())


@pytest.fixture(scope="session")
def saved_plan(tmp_path_factory):
    """A plan with three holes on a bar, saved as a file; the middle hole is fixed."""
    data = (
        b'<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="60mm" '
        b'viewBox="0 0 800 60"><path d="M0,0H800V60H0Z"/></svg>'
    )
    holes = (Hole(1, 100.0, 30.0), Hole(2, 400.0, 30.0, fixed=True), Hole(3, 700.0, 30.0))
    path = tmp_path_factory.mktemp("plan") / "bar.holeplan"
    plan_file.save_plan(Plan(ArtworkFile("bar.svg", data), holes=holes), path)
    return path


@pytest.fixture
def bar(tmp_path):
    """A drawing of a bar 800 mm long and 60 mm high."""
    path = tmp_path / "bar.svg"
    path.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="60mm" '
        'viewBox="0 0 800 60"><path d="M0,0H800V60H0Z"/></svg>'
    )
    return path


@pytest.fixture
def run(capsys):
    """Runs a command line here and gives status, output and error."""

    def run_here(*arguments):
        status = commands.run([str(argument) for argument in arguments])
        return (status, *capsys.readouterr())

    return run_here
