"""From what is on the bench to complete designs: wishes, search, proposals, sensitivity."""
