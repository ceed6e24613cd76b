"""The trade's units: a closed table of factors to SI.

Every factor is exact by definition; tests/agreement compares each with a general units library.
"""

import math

INCH = 0.0254  # m, exact by definition, international yard and pound agreement 1959
POUND = 0.45359237  # kg, exact by definition, same agreement
OUNCE = POUND / 16  # kg
GRAVITY = 9.80665  # m/s², standard gravity, ISO 80000-4
FOOT = 12 * INCH  # m
DEGREE = math.pi / 180  # rad
TURN_PER_MINUTE = math.pi / 30  # rad/s
CELSIUS_ZERO = 273.15  # K, exact by definition
FAHRENHEIT_ZERO = 459.67  # °F between absolute zero and 0 °F

LENGTHS = {"mm": 0.001, "cm": 0.01, "m": 1.0, "in": INCH, "ft": FOOT}
FORCES = {
    "N": 1.0,
    "gf": 0.001 * GRAVITY,
    "kgf": GRAVITY,
    "ozf": OUNCE * GRAVITY,
    "lbf": POUND * GRAVITY,
}
UNITS: dict[str, dict[str, float]] = {
    "length": LENGTHS,
    "distance": LENGTHS,  # heights and ways in the air, which nobody measures with a ruler
    "area": {"cm2": 1e-4, "m2": 1.0, "in2": INCH**2, "ft2": FOOT**2},
    "mass": {"g": 0.001, "kg": 1.0, "oz": OUNCE, "lb": POUND},
    "angle": {"deg": DEGREE, "rad": 1.0},
    "speed": {"m/s": 1.0, "km/h": 1 / 3.6, "mph": 0.44704, "kn": 1852 / 3600, "ft/s": FOOT},
    "temperature": {"degC": 1.0, "degF": 5 / 9, "K": 1.0},
    "charge": {"mAh": 3.6, "Ah": 3600.0, "C": 1.0},
    "current": {"A": 1.0, "mA": 0.001},
    "voltage": {"V": 1.0, "mV": 0.001},
    "resistance": {"mohm": 0.001, "ohm": 1.0},
    "kv": {"Kv": TURN_PER_MINUTE, "rpm/V": TURN_PER_MINUTE},
    "power": {"W": 1.0, "kW": 1000.0},
    "areal mass": {
        "g/m2": 0.001,
        "g/dm2": 0.1,
        "kg/m2": 1.0,
        "oz/ft2": OUNCE / FOOT**2,
        "g/in2": 0.001 / INCH**2,
    },
    "density": {"kg/m3": 1.0, "g/cm3": 1000.0, "lb/ft3": POUND / FOOT**3},
    "force": FORCES,
    "thrust": FORCES,  # the same, as a builder says it: on a scale
    "torque": {
        "N m": 1.0,
        "kgf cm": 0.01 * GRAVITY,
        "gf cm": 1e-5 * GRAVITY,
        "ozf in": OUNCE * GRAVITY * INCH,
        "lbf in": POUND * GRAVITY * INCH,
    },
    "time": {"s": 1.0, "min": 60.0, "h": 3600.0},
    "pressure": {"Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "GPa": 1e9},
    "fraction": {"%": 0.01, "": 1.0},
    "money": {"": 1.0},
}
LENGTH_ALIASES = {
    '"': "in", "''": "in", "”": "in", "″": "in", "inch": "in", "inches": "in",
    "'": "ft", "’": "ft", "′": "ft", "foot": "ft", "feet": "ft",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
}  # fmt: skip
ALIASES: dict[str, dict[str, str]] = {
    "length": LENGTH_ALIASES,
    "distance": LENGTH_ALIASES,
    "area": {"cm²": "cm2", "m²": "m2", "in²": "in2", "ft²": "ft2", "sq in": "in2"},
    "force": {"oz": "ozf", "lb": "lbf"},
    "thrust": {"g": "gf", "kg": "kgf", "oz": "ozf", "lb": "lbf"},
    "mass": {"gram": "g", "grams": "g", "ounce": "oz", "ounces": "oz", "lbs": "lb"},
    "angle": {"°": "deg", "degree": "deg", "degrees": "deg"},
    "speed": {"kmh": "km/h", "km/hr": "km/h", "kt": "kn", "knots": "kn", "fps": "ft/s"},
    "temperature": {"°C": "degC", "C": "degC", "°F": "degF", "F": "degF"},
    "current": {"amp": "A", "amps": "A"},
    "voltage": {"volt": "V", "volts": "V"},
    "resistance": {"Ω": "ohm", "mΩ": "mohm", "ohms": "ohm"},
    "kv": {"kv": "Kv", "KV": "Kv", "rpm/v": "Kv"},
    "power": {"watt": "W", "watts": "W"},
    "torque": {"Nm": "N m", "N*m": "N m", "kg cm": "kgf cm", "kg*cm": "kgf cm", "kgcm": "kgf cm",
               "oz in": "ozf in", "oz-in": "ozf in", "lb in": "lbf in"},
    "time": {"sec": "s", "minutes": "min", "hours": "h"},
}  # fmt: skip
LIMITS = {
    "length": 1e4,  # m; a field 10 km up is past any
    "distance": 1e5,  # m
    "mass": 100.0,  # kg
    "angle": 2 * math.pi,  # rad, one turn
    "speed": 400.0,  # m/s, past sound
    "temperature": 1000.0,  # K
    "charge": 3.6e6,  # A s, 1000 Ah
    "kv": 1e5 * TURN_PER_MINUTE,  # rad/(s V)
    "fraction": 100.0,
}
LARGEST = 1e15  # SI, for dimensions without a limit of their own; assumed, only catches slips
EXAMPLES = {
    "length": ("in", "mm"),
    "distance": ("m", "ft"),
    "area": ("cm2", "in2"),
    "mass": ("oz", "g"),
    "angle": ("deg", ""),
    "speed": ("m/s", "mph"),
    "temperature": ("degC", "degF"),
    "charge": ("mAh", "Ah"),
    "current": ("A", ""),
    "voltage": ("V", ""),
    "resistance": ("mohm", "ohm"),
    "kv": ("Kv", ""),
    "power": ("W", ""),
    "areal mass": ("g/m2", "oz/ft2"),
    "density": ("kg/m3", ""),
    "force": ("N", "ozf"),
    "thrust": ("gf", "ozf"),
    "torque": ("kgf cm", "ozf in"),
    "time": ("s", "min"),
    "pressure": ("MPa", ""),
}
COMPOUND = {("ft", "in"), ("lb", "oz"), ("min", "s"), ("h", "min")}

METRIC = {
    "length": "mm",
    "distance": "m",
    "area": "cm2",
    "mass": "g",
    "angle": "deg",
    "speed": "m/s",
    "temperature": "degC",
    "charge": "mAh",
    "current": "A",
    "voltage": "V",
    "resistance": "mohm",
    "kv": "Kv",
    "power": "W",
    "areal mass": "g/dm2",
    "density": "kg/m3",
    "force": "N",
    "thrust": "gf",
    "torque": "kgf cm",
    "time": "s",
    "pressure": "MPa",
    "fraction": "%",
    "money": "",
}
IMPERIAL = METRIC | {
    "length": "in", "mass": "oz", "speed": "mph", "temperature": "degF", "areal mass": "oz/ft2",
    "density": "lb/ft3", "force": "ozf", "thrust": "ozf", "torque": "ozf in", "distance": "ft",
    "area": "in2",
}  # fmt: skip
SHOWN = {
    "degC": "°C",
    "degF": "°F",
    "g/dm2": "g/dm²",
    "oz/ft2": "oz/ft²",
    "kg/m3": "kg/m³",
    "lb/ft3": "lb/ft³",
    "cm2": "cm²",
    "in2": "in²",
    "gf": "g",  # a scale shows thrust as what it would weigh
    "ozf": "oz",
    "lbf": "lb",
    "kgf": "kg",
    "kgf cm": "kg cm",
    "ozf in": "oz in",
    "lbf in": "lb in",
}
