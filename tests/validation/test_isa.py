"""Standard atmosphere against ISO 2533 table values."""

import pytest

from foamwright.core.air import air_at

# ISO 2533 / US Standard Atmosphere 1976 tables, four printed digits
TABLE = [
    (0, 1.2250, 340.29, 1.7894e-5),
    (500, 1.1673, 338.37, 1.7737e-5),
    (1000, 1.1116, 336.43, 1.7578e-5),
    (2000, 1.0065, 332.53, 1.7260e-5),
    (3000, 0.9091, 328.58, 1.6937e-5),
]


@pytest.mark.parametrize(("height", "density", "sound", "viscosity"), TABLE)
def test_isa(reproduce, height, density, sound, viscosity):
    air = air_at(height)
    source = "[ISO2533] table, geometric height"
    reproduce(
        f"density at {height} m (kg/m³)",
        computed=air.density,
        printed=density,
        rel=1e-3,
        source=source,
    )
    reproduce(
        f"speed of sound at {height} m (m/s)",
        computed=air.speed_of_sound,
        printed=sound,
        rel=1e-3,
        source=source,
    )
    reproduce(
        f"viscosity at {height} m (Pa s)",
        computed=air.viscosity,
        printed=viscosity,
        rel=1e-3,
        source=source,
    )
