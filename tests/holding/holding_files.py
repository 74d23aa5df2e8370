"""Where the checkout and its demo garden stand."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_trees"
