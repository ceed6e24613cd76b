"""What breaks first, at how many g, and what bends too much."""
