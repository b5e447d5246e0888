"""Plan file: the whole plan with its artwork in one JSON file, `.holeplan`.

    {"format": "holeplan", "version": 5, "plan": {...}}

The plan's fields have the names of `plan.Plan`; the artwork's bytes are base64. Files of earlier
versions are read; those of later ones are refused, since what they hold can't be known.
"""

import re
import stat
from pathlib import Path
from typing import Any

import msgspec

from holeplacer import replacing
from holeplacer.errors import InputError, PlanFileError
from holeplacer.plan import migration, validity
from holeplacer.plan.plan import Plan

SUFFIX = ".holeplan"
FORMAT = "holeplan"

LARGEST_BYTES = 200_000_000
"""More than any artwork that is read makes of a plan."""


class _Head(msgspec.Struct):
    format: str
    version: int


class _File(msgspec.Struct):
    format: str
    version: int
    plan: Plan


class _OlderFile(msgspec.Struct):
    plan: dict[str, Any]


def plan_bytes(plan: Plan) -> bytes:
    """The plan as a file's content.

    Raises:
        InputError: A figure of the plan can't be meant (not a number, out of all reason).
    """
    file = _File(FORMAT, migration.VERSION, validity.checked(plan))
    return msgspec.json.format(msgspec.json.encode(file), indent=1) + b"\n"


def plan_from_bytes(data: bytes, name: str) -> Plan:
    """The plan in a file's content.

    Args:
        data: The content.
        name: File name, for the error.

    Raises:
        PlanFileError: It is no plan, of a later version, damaged, or holds impossible figures.
    """
    version = _version(data, name)
    try:
        if version == migration.VERSION:
            plan = msgspec.json.decode(data, type=_File).plan
        else:
            older = msgspec.json.decode(data, type=_OlderFile).plan
            plan = msgspec.convert(migration.migrated(older, version), Plan)
        return validity.checked(plan)
    except (msgspec.ValidationError, InputError) as error:
        raise _damaged(name, _in_words(error)) from error
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as error:
        raise _damaged(name, f"an entry of its version {version} is missing or wrong") from error


def save_plan(plan: Plan, path: Path) -> None:
    """Write a plan so that the file holds either its old content or the new one, whole.

    How: see `replacing`. Links are followed; permissions stay.

    Raises:
        PlanFileError: The file can't be written.
        InputError: A figure of the plan can't be meant.
    """
    replacing.replace_file(path, plan_bytes(plan), PlanFileError)


def load_plan(path: Path) -> Plan:
    """Read a plan file.

    Raises:
        PlanFileError: It is not there, can't be read, or `plan_from_bytes` refuses it.
    """
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise PlanFileError("this is not an ordinary file", where=_printable(path))
        if status.st_size > LARGEST_BYTES:
            raise PlanFileError("this is too large for a plan", where=path.name)
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        raise PlanFileError(
            f"the plan can't be read ({_reason(error)})", where=_printable(path)
        ) from error
    return plan_from_bytes(data, path.name)


def _version(data: bytes, name: str) -> int:
    try:
        head = msgspec.json.decode(data, type=_Head)
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError) as error:
        if data.lstrip()[:1] == b"{" and b'"holeplan"' in data[:200]:
            raise _damaged(name, "it is cut short or was changed") from error
        raise _not_ours(name) from error
    if head.format != FORMAT:
        raise _not_ours(name)
    if head.version > migration.VERSION:
        raise PlanFileError(
            f"the plan was saved by a later program (version {head.version}, this one reads up "
            f"to {migration.VERSION})",
            where=name,
            remedy="open it with that program, or update this one",
        )
    if head.version < 1:
        raise _damaged(name, f"there is no version {head.version}")
    return head.version


def _not_ours(name: str) -> PlanFileError:
    return PlanFileError(
        "this is not a plan", where=name, remedy=f"open a {SUFFIX} file, or artwork as new"
    )


def _damaged(name: str, how: str) -> PlanFileError:
    return PlanFileError(
        f"the plan is damaged: {how}", where=name, remedy="take an earlier copy of it"
    )


def _in_words(error: Exception) -> str:
    if isinstance(error, InputError):
        return str(error).rstrip(".")
    found = re.fullmatch(r"(.*?)(?: - at `\$\.?(.*)`)?", str(error), re.DOTALL)
    what, place = (found[1], found[2]) if found else (str(error), None)
    what = what[:120].replace("`", "")
    return f"{place}: {what[:1].lower()}{what[1:]}" if place else what


def _reason(error: Exception) -> str:
    text = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return text[:1].lower() + text[1:]


def _printable(path: Path) -> str:
    return str(path)[:200].replace("\0", "\\0")
