"""In: folders of TOML rules. Out: parsed tables with faults, and a cache of what others compile from them.

Never interprets a rule: what a condition means is for hearing and practice.
"""

from benchmate.rulebase.cache import CompiledStore, compiled, fingerprint
from benchmate.rulebase.read import RuleFile, RuleTables, read_tables
from benchmate.rulebase.where import RuleFolders, find_rules

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
