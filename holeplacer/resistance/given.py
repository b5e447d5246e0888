"""Given: what a formula is given, refused by name where no such thing can be."""

import math

from holeplacer.errors import InputError


def positive(value: float, name: str) -> float:
    """The value, if it is a finite number above 0.

    Raises:
        InputError: It is not.
    """
    if not (math.isfinite(value) and value > 0):
        raise InputError(f"{name} is {value:g}", remedy="give a number above 0")
    return value


def not_negative(value: float, name: str) -> float:
    """The value, if it is a finite number of 0 or more.

    Raises:
        InputError: It is not.
    """
    if not (math.isfinite(value) and value >= 0):
        raise InputError(f"{name} is {value:g}", remedy="give 0 or a number above it")
    return value
