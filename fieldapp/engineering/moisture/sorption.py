"""Two lines, found independently, that tie water in paper to the dryness of the oil around it."""

from dataclasses import dataclass
from math import exp, log

from fieldapp.engineering.moisture.vapour import vapour_pressure_of_water


@dataclass(frozen=True, slots=True)
class SorptionLine:
    """A line W = factor p^power exp(activation/T), W in kg/kg dry paper, p in Pa; no limits."""

    name: str
    factor: float
    power: float
    activation: float
    source: str

    def water(self, saturation: float, temperature: float) -> float:
        """Return the water in paper [kg/kg dry] for a relative saturation at a temperature [K]."""
        pressure = saturation * vapour_pressure_of_water(temperature=temperature)
        water: float = self.factor * pressure**self.power * exp(self.activation / temperature)
        return water

    def saturation(self, water: float, temperature: float) -> float:
        """Return the relative saturation that water in paper [kg/kg dry] keeps up."""
        bare = water / (self.factor * exp(self.activation / temperature))
        pressure: float = bare ** (1 / self.power)
        return pressure / vapour_pressure_of_water(temperature=temperature)


ATMOSPHERE, TORR = 101_325.0, 101_325 / 760
FESSLER = SorptionLine(
    "Fessler", 2.173e-7 / ATMOSPHERE**0.6685, 0.6685, 4725.6,
    "Fessler, Rouse, McNutt, Compton 1989: 2.173e-7 p^0.6685 exp(4725.6/T), p in atm (value from "
    "memory); form and units as in Martin, Perkasa, Lelekakis, IEEE Transactions on Power "
    "Delivery 28(3), 2013, p. 1433",
)  # fmt: skip
# ln P = 22.454 + 1.4495 ln W - 6996.7/T, P in Torr and W in %, solved for W
OOMMEN_MCNUTT = SorptionLine(
    "Oommen and McNutt", 0.01 * exp(-(22.454 + log(TORR)) / 1.4495), 1 / 1.4495, 6996.7 / 1.4495,
    "Oommen and McNutt, the line inside the bubble formula of IEEE C57.91 (value from memory)",
)  # fmt: skip
