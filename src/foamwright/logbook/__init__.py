"""The logbook beside a design: what was weighed, measured, heard, flown and mended."""
