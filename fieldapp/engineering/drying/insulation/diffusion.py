"""How fast water moves through oil-soaked paper and board."""

from dataclasses import dataclass
from math import exp, pi
from typing import Annotated

from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
SquareMetrePerSecond = Annotated[float, "diffusion coefficient"]
Metre = Annotated[float, "length"]
Second = Annotated[float, "time"]
Count = Annotated[float, "count"]
Share = Annotated[float, "share"]

SLOPE = 50.0
REFERENCE_TEMPERATURE = 298.0
COLDEST, HOTTEST = 273.15, 383.15
WETTEST_PAPER = 0.08
# dry, unsoaked paper lets water through 200 times faster: the upper end keeps it out
SLOWEST, FASTEST = 1e-15, 3e-10


@dataclass(frozen=True, slots=True)
class DiffusionSet:
    """D = reference exp(slope W + activation (1/298 - 1/T)), W in kg/kg dry, T in K."""

    name: str
    reference: float
    activation: float
    slope: float
    source: str

    def dry(self, temperature: float) -> float:
        """Return the diffusion coefficient [m²/s] of dry paper at a temperature [K]."""
        return diffusion_coefficient(
            reference=self.reference,
            activation=self.activation,
            water_in_paper=0.0,
            temperature=temperature,
        )

    def at(self, water: float, temperature: float) -> float:
        """Return the diffusion coefficient [m²/s] for water in paper [kg/kg dry] and T [K]."""
        require("water_in_paper", water, 0, WETTEST_PAPER)
        return self.dry(temperature) * exp(self.slope * water)


GUIDI_FULLERTON = DiffusionSet(
    "Guidi and Fullerton 1974, oil-soaked", 6.44e-14, 7700.0, SLOPE,
    "Guidi, Fullerton 1974 (value from memory); published sets part by a factor of 3",
)  # fmt: skip
FOSS = DiffusionSet(
    "Foss, oil-soaked", 1.34e-13, 8074.0, SLOPE,
    "Foss, as compared in García et al., IEEE Electrical Insulation Magazine 29(2), 2013 (value "
    "from memory); published sets part by a factor of 3",
)  # fmt: skip
SOAKED_SETS = (GUIDI_FULLERTON, FOSS)


def diffusion_coefficient(
    *,
    reference: SquareMetrePerSecond,
    activation: KelvinDifference,
    water_in_paper: Share,
    temperature: Kelvin,
) -> SquareMetrePerSecond:
    """Return how fast water moves through oil-soaked paper.

    Parameters
    ----------
    reference : coefficient of dry paper at 298 K [m²/s]; 6.44e-14 Guidi, 1.34e-13 Foss
    activation : activation temperature [K]; 7700 Guidi, 8074 Foss
    water_in_paper : share of the dry mass [-]
    temperature : temperature of the paper [K]

    Returns
    -------
    diffusion coefficient [m²/s]; published sets part by a factor of 3

    Valid for
    ---------
    reference 1e-14 to 1e-12 m²/s, which keeps sets for unsoaked paper out, activation 7000 to
    9000 K, water_in_paper 0 to 0.08, temperature 273.15 to 383.15 K

    Source
    ------
    D = D0 exp(0.5 c + Ea (1/298 - 1/T)), c in %: Guidi and Fullerton 1974, Foss (values from
    memory); compared in García, Villarroel, García, Burgos 2013.

    Examples
    --------
    >>> found = diffusion_coefficient(reference=6.44e-14, activation=7700, water_in_paper=0.02,
    ...                               temperature=333.15)
    >>> f"{found:.3g}"
    '2.67e-12'
    """
    require("reference", reference, 1e-14, 1e-12)
    require("activation", activation, 7000, 9000)
    require("water_in_paper", water_in_paper, 0, WETTEST_PAPER)
    require("temperature", temperature, COLDEST, HOTTEST)
    warmth = activation * (1 / REFERENCE_TEMPERATURE - 1 / temperature)
    return reference * exp(SLOPE * water_in_paper + warmth)


def drying_time_constant(
    *, thickness: Metre, wetted_faces: Count, diffusion: SquareMetrePerSecond
) -> Second:
    """Return the time constant of a sheet that dries into oil; after one, 70 % is gone.

    Parameters
    ----------
    thickness : thickness of the sheet [m]
    wetted_faces : faces that oil reaches: 2, or 1 for paper on a conductor, 4 times slower [-]
    diffusion : diffusion coefficient [m²/s]

    Returns
    -------
    time [s]

    Valid for
    ---------
    thickness 0.00005 to 0.2 m, wetted_faces 1 or 2, diffusion 1e-15 to 3e-10 m²/s

    Source
    ------
    Crank, The Mathematics of Diffusion, 2nd ed. 1975, section 4.3 (value from memory):
    d²/(π² D) from both faces.

    Examples
    --------
    >>> tau = drying_time_constant(thickness=0.002, wetted_faces=2, diffusion=2.674e-12)
    >>> round(tau / 3600, 1)
    42.1
    """
    require("thickness", thickness, 5e-5, 0.2)
    require("diffusion", diffusion, SLOWEST, FASTEST)
    path = drying_path(thickness, wetted_faces)
    return 4 * path**2 / (pi**2 * diffusion)


def drying_path(thickness: float, wetted_faces: float) -> float:
    """Return the way [m] from the innermost place of a sheet to the oil."""
    nearest = 1.0 if wetted_faces < 2 else 2.0  # noqa: PLR2004 - a sheet has two faces
    require("wetted_faces", wetted_faces, nearest, nearest)
    return thickness / wetted_faces
