"""Verdicts on a plane, with margins, reasons, sources and solved changes."""
