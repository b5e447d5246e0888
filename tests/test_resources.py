"""Shipped tables."""

from dataclasses import dataclass

import pytest

from holeplacer import resources
from holeplacer.errors import InputError

TABLES = sorted(path.stem for path in resources.resource_path("tables").glob("*.csv"))


@dataclass(frozen=True)
class Metal:
    name: str


def test_there_are_tables():
    """The tables are found from wherever the program runs."""
    assert {"gauges", "metals", "processes", "edge_rules", "clearance_holes", "standoffs"} <= set(
        TABLES
    )


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_source_and_status(name):
    """No figure without a source; its status is P, R or M, with what it is of in brackets."""
    rows = resources.table(name)
    assert rows
    for row in rows:
        assert row["source"].strip()
        assert row["status"][0] in "PRM"
        assert None not in row
        assert None not in row.values()
        if "no source" in row["source"] and ":" not in row["source"]:
            assert row["status"] == "M"


@pytest.mark.parametrize("name", TABLES)
def test_notes_are_not_rows(name):
    """Lines that begin with a hash are read past."""
    assert not any(
        value.startswith("#") and " " in value
        for row in resources.table(name)
        for value in row.values()
    )


def test_missing_resource_is_named():
    """Installed without its resources, the program says which is missing."""
    with pytest.raises(FileNotFoundError, match=r"tables/nothing\.csv"):
        resources.resource_path("tables", "nothing.csv")


def test_an_item_is_found_by_its_name():
    """A name picks its row; another is refused with the names there are."""
    items = (Metal("tin"), Metal("lead"))
    assert resources.by_name(items, "lead", "metal") is items[1]
    with pytest.raises(InputError, match="no metal 'gold'; take one of: tin; lead"):
        resources.by_name(items, "gold", "metal")
