"""What was said before, put right."""
