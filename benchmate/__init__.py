"""benchmate: a bench assistant for growers of trees in pots."""

__version__ = "0.1.0"
