"""In: folders of TOML rules. Out: parsed tables with faults, and a cache of what others compile from them.

Never interprets a rule: what a condition means is for hearing and practice.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from benchmate.rulebase.cache import CompiledStore, compiled, fingerprint
from benchmate.rulebase.where import RuleFolders, find_rules

if TYPE_CHECKING:
    from benchmate.rulebase.read import RuleFile, RuleTables, read_tables

__all__ = [
    "CompiledStore",
    "RuleFile",
    "RuleFolders",
    "RuleTables",
    "compiled",
    "find_rules",
    "fingerprint",
    "read_tables",
]


def __getattr__(name: str) -> Any:
    """Reading TOML is for a start that finds nothing compiled."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from benchmate.rulebase import read

    return getattr(read, name)
