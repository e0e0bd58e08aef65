"""The vapour pressure of water, which oil and paper share when they are at rest with each other."""

from math import sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
Kelvin = Annotated[float, "temperature"]

# Table 34 of the release: the coefficients of region 4
N1, N2 = 1167.0521452767, -724213.16703206
N3, N4, N5 = -17.073846940092, 12020.82470247, -3232555.0322333
N6, N7, N8 = 14.91510861353, -4823.2657361591, 405113.40542057
N9, N10 = -0.23855557567849, 650.17534844798
MEGAPASCAL = 1e6


def vapour_pressure_of_water(*, temperature: Kelvin) -> Pascal:
    """Return the pressure of water vapour in balance with liquid water.

    Parameters
    ----------
    temperature : temperature of the water [K]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    temperature 273.15 to 647.096 K

    Source
    ------
    IAPWS R7-97(2012), Industrial Formulation 1997 for water and steam, region 4, equation 30.

    Examples
    --------
    >>> round(vapour_pressure_of_water(temperature=333.15))
    19946
    """
    require("temperature", temperature, 273.15, 647.096)
    theta = temperature + N9 / (temperature - N10)
    a = theta**2 + N1 * theta + N2
    b = N3 * theta**2 + N4 * theta + N5
    c = N6 * theta**2 + N7 * theta + N8
    return MEGAPASCAL * (2 * c / (-b + sqrt(b**2 - 4 * a * c))) ** 4
