"""Flight in time: one function of state that throws, scripted flights and the live view share."""
