"""Nesting on the boards and full-size drawings: PDF, SVG, DXF."""
