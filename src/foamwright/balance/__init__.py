"""Mass, centre of gravity, inertia and where the pack must sit."""
