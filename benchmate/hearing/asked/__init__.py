"""Clauses that ask: what is asked, and what only seems to be told."""
