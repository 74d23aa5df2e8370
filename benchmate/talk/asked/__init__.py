"""Questions in the talk, and how they go on."""
