"""Several trees in one statement."""
