"""Clauses that tell work: what was done, to what, and what went wrong by accident."""
