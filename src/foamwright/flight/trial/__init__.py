"""The test flight on paper: manoeuvres flown by script in the simulation, and what they show."""
