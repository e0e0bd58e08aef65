"""Something sound to give to each rule, every input of it."""

from datetime import date
from math import exp
from typing import Any

from fieldapp.engineering.air.hold import HoldPoint
from fieldapp.engineering.decision.pcb import Jurisdiction
from fieldapp.engineering.drying.course import Season
from fieldapp.engineering.drying.insulation.mix import Layer
from fieldapp.engineering.drying.watch import Reading
from fieldapp.engineering.moisture.estimate import Liquid
from fieldapp.engineering.moisture.solubility import Pair
from fieldapp.engineering.rules.course import DiffusionName
from fieldapp.engineering.rules.gases import GasName, TypicalGas
from fieldapp.engineering.rules.limits import OilTable
from fieldapp.engineering.rules.safety import Container
from fieldapp.engineering.rules.vessel import DialReading, PumpReading
from fieldapp.engineering.rules.weighing import Weighing

DAY, PPM, LITRE_A_MINUTE = 86_400.0, 1e-6, 1 / 60_000
GRIFFIN = {"constant_a": 7.0895, "constant_b": 1567.0}
SOUND: dict[str, dict[str, Any]] = {
    "pump_down_outlook": {
        "reading": [PumpReading(t, 23_100 + 61_200 * exp(-t / 120)) for t in range(0, 330, 30)],
        "target": 16_665.0, "repeatability": 15.0, "pump_alone": 800.0,
        "pump_alone_uncertainty": 200.0, "volume": 0.12,
    },
    "hold_test": {
        "reading": [HoldPoint(600.0 * n, 6200 + 95.0 * n, 294.65) for n in range(4)],
        "volume": 0.12, "repeatability": 10.0, "temperature_repeatability": 0.1,
    },
    "hold_test_by_dial": {
        "reading": [DialReading(600.0 * n, 78_100 - 500.0 * n, 84_320, 294.65) for n in range(4)],
        "volume": 0.12, "repeatability": 100.0, "temperature_repeatability": 0.1,
    },
    "gas_solubility": {"gas": GasName.ACETYLENE},
    "solubility_sets": {"temperature": 313.15},
    "paper_of_sample": {
        "temperature": 325.15, "water": 24 * PPM, "saturation": 0.129, "since_drying": 4 * DAY,
        "liquid": Liquid.MINERAL_OIL, **GRIFFIN,
    },
    "saturation_band": {"saturation": 0.121},
    "site_solubility": {
        "pair": [Pair(300.15, 20e-6, 0.26), Pair(313.15, 22e-6, 0.17), Pair(330.15, 25e-6, 0.10)],
        "taken_by": "the office",
    },
    "bend_radius": {"bore": 0.0254},
    "drying_course": {
        "dry_paper": 5000.0, "now": 0.03, "target": 0.02, "flow": 10 * LITRE_A_MINUTE,
        "density_at_20": 895.0, "efficiency": 0.9, "season": [Season(0, 333.15)],
        "ingress": 1e-9, **GRIFFIN,
    },
    "insulation_course": {
        "layer": [Layer("paper", 500, 0.001, 2, 333.15, 0.03)], "oil_mass": 17_000.0,
        "oil_water": 20 * PPM, "flow": 12 * LITRE_A_MINUTE, "density": 862.0, "efficiency": 0.9,
        "stops": 30 * DAY, "lasts": 40 * DAY, "diffusion": DiffusionName.FOSS, "ingress": 1e-9,
        **GRIFFIN,
    },
    "cartridges_weighed": {
        "blank": [Weighing(42.2), Weighing(42.3), Weighing(42.4)],
        "drained": [Weighing(45.1), Weighing(45.0)], "scale": 0.0,
    },
    "cartridges_call": {
        "reading": [Reading(n * 3600.0, 321.15, 2e-4, 20 * PPM, 15 * PPM) for n in range(26)],
        "uncertainty": 1 * PPM,
    },
    "stop_rule": {
        "rate": 0.144 / DAY, "loading_temperature": 321.15, "set_flow": 12 * LITRE_A_MINUTE,
        "density": 862.0, "temperature": 321.15, "flow": 12 * LITRE_A_MINUTE,
        "inlet_water": 19.8 * PPM, "outlet_water": 3 * PPM, "uncertainty": 2.8 * PPM,
    },
    "rest_sample": {
        "since_drying": 7.2 * DAY, "temperature": 322.0, "temperature_before": 325.0,
    },
    "conformity": {"value": 18.0, "uncertainty": 3.0, "low": 0.0, "high": 20.0},
    "oil_limits": {"voltage": 123_000.0, "table": OilTable.IEC_IN_SERVICE, "inhibited": True},
    "gas_beside_typical": {
        "gas": TypicalGas.ACETYLENE, "content": 3 * PPM, "oxygen_to_nitrogen": 0.34,
        "joint_tap_changer": True,
    },
    "pcb_class": {
        "jurisdiction": Jurisdiction.UNITED_STATES, "content": 48 * PPM, "uncertainty": 5 * PPM,
        "made": date(1984, 5, 1), "mineral_oil": True,
    },
    "spill_rule": {"container": [Container(19.3), Container(0.12)]},
    "approach_distance": {
        "voltage": 123_000.0, "elevation": 1500.0, "nominal_voltage": 110_000.0, "distance": 2.1,
    },
    "bond_place": {"resistance": 0.012, "uncertainty": 0.001},
}  # fmt: skip
