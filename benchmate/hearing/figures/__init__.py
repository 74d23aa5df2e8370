"""Which figure a statement asks for, and what its numbers stand for in it."""
