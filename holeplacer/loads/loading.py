"""Loading: everything the person decided about actions on the sign and what they may cause.

Only scalars, words and values of these: it is part of the plan, saved with it and compared by
value. A figure that is None was not entered: a coefficient then follows from its standard's table,
and a figure of the place (wind speed, heights) is asked for when the pressure is wanted. No wind is
ever guessed: the default method is `none`.
"""

from dataclasses import dataclass, field
from typing import Literal, get_args

Method = Literal["none", "entered", "asce7-16", "asce7-22", "en1991-1-4"]
"""Where the wind pressure comes from."""

DesignMethod = Literal["asd", "lrfd", "en"]
"""How action and resistance are compared: allowable strength, load and resistance factors, or the
Eurocodes' partial factors."""

Supports = Literal["free", "clamped"]
"""What cap and washer do to the sheet's slope at a standoff: nothing, or hold it."""

Exposure = Literal["B", "C", "D"]
WallZone = Literal["4", "5", "by place"]
Terrain = Literal["0", "I", "II", "III", "IV"]
SuctionZone = Literal["A", "B", "C", "E"]
ScrewKind = Literal["lag", "wood"]

METHODS: tuple[Method, ...] = get_args(Method)
DESIGN_METHODS: tuple[DesignMethod, ...] = get_args(DesignMethod)
SUPPORTS: tuple[Supports, ...] = get_args(Supports)
EXPOSURES: tuple[Exposure, ...] = get_args(Exposure)
WALL_ZONES: tuple[WallZone, ...] = get_args(WallZone)
TERRAINS: tuple[Terrain, ...] = get_args(Terrain)
SUCTION_ZONES: tuple[SuctionZone, ...] = get_args(SuctionZone)
SCREW_KINDS: tuple[ScrewKind, ...] = get_args(ScrewKind)


@dataclass(frozen=True)
class Asce7Site:
    """What ASCE 7 asks of the place, for a solid sign attached along a wall (29.3.2).

    Attributes:
        basic_speed_m_s: Basic wind speed V of the risk category, strength level (26.5).
        exposure: Surface roughness upwind (26.7); C where neither B nor D applies.
        raw_exposure_b: Take Exposure B's Kz below 30 ft from the formula, instead of at least
            0.70; sources differ, and 0.70 is the safe choice.
        roof_height_mm: Mean roof height h of the building.
        sign_height_mm: Height of the sign's middle above ground; only to see that it is not above
            the roof.
        zone: `4` field of the wall, `5` corner strip, or `by place`: by the sign's distance from
            the corner. 5 is the safe choice.
        corner_distance_mm: From the sign's outermost edge to the nearest corner of the wall.
        least_width_mm: Least horizontal dimension of the building.
        ground_elevation_mm: Above sea level; None takes Ke = 1.0, which is always allowed.
        kz, kzt, kd, ke: Coefficients of velocity pressure; None: by table (Kzt: flat land).
        gcp_out, gcp_in: External pressure coefficients off and on to the wall, as positive
            magnitudes; None: by zone and effective area.
        gcpi: Internal pressure coefficient, positive magnitude; None: 0, as 29.3.2 has it.
        least_pressure_pa: Least pressure in either direction, strength level; None: 16 psf.
    """

    basic_speed_m_s: float | None = None
    exposure: Exposure = "C"
    raw_exposure_b: bool = False
    roof_height_mm: float | None = None
    sign_height_mm: float | None = None
    zone: WallZone = "5"
    corner_distance_mm: float | None = None
    least_width_mm: float | None = None
    ground_elevation_mm: float | None = None
    kz: float | None = None
    kzt: float | None = None
    kd: float | None = None
    ke: float | None = None
    gcp_out: float | None = None
    gcp_in: float | None = None
    gcpi: float | None = None
    least_pressure_pa: float | None = None


@dataclass(frozen=True)
class En1991Site:
    """What EN 1991-1-4 asks of the place, for a sign that lies along a wall like its cladding.

    Attributes:
        basic_speed_m_s: Basic wind velocity vb, 10 minute mean, with the national annex's
            direction and season factors in it (4.2).
        terrain: Category of Table 4.1.
        reference_height_mm: Reference height ze: the building's height (7.2.2), not the sign's.
        zone: Zone of the wall under suction (Figure 7.5): A at the edges of a wall along the wind,
            B, C further downwind, E on the lee side. A is the safe choice. On to the wall it is
            always zone D.
        height_to_depth: Height of the building over its depth along the wind (Table 7.1).
        air_density_kg_m3, orography, turbulence: rho, co and kI; None: 1.25 kg/m3, 1.0, 1.0.
        cpe_out, cpe_in: Pressure coefficients off and on to the wall, positive magnitudes; None:
            by zone and loaded area.
    """

    basic_speed_m_s: float | None = None
    terrain: Terrain = "II"
    reference_height_mm: float | None = None
    zone: SuctionZone = "A"
    height_to_depth: float = 1.0
    air_density_kg_m3: float | None = None
    orography: float | None = None
    turbulence: float | None = None
    cpe_out: float | None = None
    cpe_in: float | None = None


@dataclass(frozen=True)
class Temperature:
    """Temperatures of the metal, not of the air: dark sheet in the sun grows far hotter.

    The defaults are common practice, no source: change them to the place and the colour.

    Attributes:
        lowest_c: Coldest night.
        highest_c: In the sun.
        installation_c: When the holes are marked and the sign is hung.
    """

    lowest_c: float = -20.0
    highest_c: float = 60.0
    installation_c: float = 20.0


@dataclass(frozen=True)
class WoodScrew:
    """A lag screw or wood screw in solid wood, for its withdrawal by the handbook formula.

    Attributes:
        kind: `lag` or `wood`.
        diameter_mm: Of the shank.
        thread_mm: Length of thread in the structural wood, without its tip.
        specific_gravity: Of the wood, oven dry.
        load_duration: CD; 1.6 for wind.
        end_grain: The screw goes in along the grain.
    """

    kind: ScrewKind = "lag"
    diameter_mm: float = 6.35
    thread_mm: float = 38.1
    specific_gravity: float = 0.42
    load_duration: float = 1.6
    end_grain: bool = False


@dataclass(frozen=True)
class WallFixing:
    """What one standoff's anchor may carry in its wall, at the level of the design method.

    Attributes:
        tension_n, shear_n: The anchor maker's values; None: not entered.
        screw: Set where the fixing is a screw in wood.
    """

    tension_n: float | None = None
    shear_n: float | None = None
    screw: WoodScrew | None = None


@dataclass(frozen=True)
class Loading:
    """Actions, how the sheet is held, and what it may do under them.

    Attributes:
        method: Where the wind pressure comes from.
        design_method: How action and resistance are compared.
        pressure_out_pa: Entered design pressure off the wall, a positive magnitude, with its load
            factor in it.
        pressure_in_pa: The same on to the wall; None: as off the wall.
        effective_area_mm2: Effective wind area for a standard's coefficients; None: each
            standoff's own.
        wind_factor: Factor on a standard's wind; None: by standard and design method (0.6 or 1.0
            on ASCE 7, 1.5 on EN 1991-1-4). An entered pressure has its factor in it.
        asce7, en1991: What the standards ask of the place.
        gravity: Self-weight counts.
        temperature: Of the metal.
        handling: The sign carried flat by two hands counts.
        handling_factor: Weight times this while carried, for jerks (common practice, no source).
        supports: What cap and washer do to the sheet's slope.
        deflection_limit_mm: Greatest deflection; None: by the two ratios.
        deflection_ratio: Span over the greatest deflection allowed in it.
        overhang_ratio: The same of an overhang: half a span's, since a cantilever counts as twice
            its length (IBC Table 1604.3, footnote; from memory).
        fixing: What the wall's anchors may carry.
    """

    method: Method = "none"
    design_method: DesignMethod = "asd"
    pressure_out_pa: float | None = None
    pressure_in_pa: float | None = None
    effective_area_mm2: float | None = None
    wind_factor: float | None = None
    asce7: Asce7Site = field(default_factory=Asce7Site)
    en1991: En1991Site = field(default_factory=En1991Site)
    gravity: bool = True
    temperature: Temperature = field(default_factory=Temperature)
    handling: bool = True
    handling_factor: float = 1.5
    supports: Supports = "free"
    deflection_limit_mm: float | None = None
    deflection_ratio: float = 60.0
    overhang_ratio: float = 30.0
    fixing: WallFixing = field(default_factory=WallFixing)
