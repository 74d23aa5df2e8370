"""Numbers, measures and times in words."""
