"""The build book and the field card, written from the parts list of a plane."""
