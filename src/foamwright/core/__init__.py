"""Foundations with no knowledge of planes: units, errors, air, bands, solvers, verdicts."""
