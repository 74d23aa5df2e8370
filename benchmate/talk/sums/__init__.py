"""Figures asked in words: where their arguments come from, and in which unit they are told."""
