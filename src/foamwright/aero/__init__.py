"""Sections, lattice, drag, trim and derivatives."""
