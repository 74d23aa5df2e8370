"""The talk by voice."""
