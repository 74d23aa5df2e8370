"""Clauses that tell what is seen: findings, states, places and sizes."""
