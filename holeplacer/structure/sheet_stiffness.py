"""Sheet stiffness: thickness and elastic constants of the metal, as all bodies need them."""

from dataclasses import dataclass

import numpy as np

from holeplacer.errors import InputError


@dataclass(frozen=True)
class SheetStiffness:
    """One sheet of an elastic metal, the same in all directions.

    Attributes:
        thickness_mm: Its thickness.
        elastic_mpa: E.
        shear_mpa: G.
    """

    thickness_mm: float
    elastic_mpa: float
    shear_mpa: float

    def __post_init__(self) -> None:
        """Refuse what no sheet has.

        Raises:
            InputError: A figure is not positive, or E and G contradict each other.
        """
        for value, what in (
            (self.thickness_mm, "thickness"),
            (self.elastic_mpa, "elastic modulus"),
            (self.shear_mpa, "shear modulus"),
        ):
            if not (np.isfinite(value) and value > 0.0):
                raise InputError(
                    f"the sheet's {what} must be more than zero", remedy="enter a positive figure"
                )
        if not 0.0 <= self.poisson < 0.5:
            raise InputError(
                f"an elastic modulus of {self.elastic_mpa:g} MPa does not go with a shear modulus "
                f"of {self.shear_mpa:g} MPa",
                remedy="G lies between a third and half of E",
            )

    @property
    def poisson(self) -> float:
        """Poisson's ratio, E / (2 G) - 1."""
        return self.elastic_mpa / (2.0 * self.shear_mpa) - 1.0

    @property
    def rigidity_nmm(self) -> float:
        """Bending of a plate, E t^3 / (12 (1 - nu^2)), N mm."""
        return self.elastic_mpa * self.thickness_mm**3 / (12.0 * (1.0 - self.poisson**2))
