"""Leads against the standard wire table (ASTM B258, copper at 20 °C)."""

import pytest

from foamwright.power.pack import lead_resistance

SOURCE = "[ASTM-B258] wire table, from memory"
# gauge, copper area in mm², resistance in mohm a metre
WIRES = [(12, 3.309, 5.211), (14, 2.081, 8.286), (16, 1.309, 13.17), (18, 0.8231, 20.95)]


@pytest.mark.parametrize(("gauge", "area", "printed"), WIRES)
def test_lead(reproduce, gauge, area, printed):
    pair = lead_resistance(1.0, area * 1e-6, connectors=0)
    reproduce(
        f"gauge {gauge} copper, mohm a metre",
        computed=1000.0 * pair / 2.0,
        printed=printed,
        rel=1e-3,
        source=SOURCE,
    )
