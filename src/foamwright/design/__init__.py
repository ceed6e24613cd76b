"""The design file: read, checked, held in SI, changed and written back with its comments."""
