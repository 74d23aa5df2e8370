"""Puts rules and demo garden into the wheel, and what is compiled from the rules, so that an installed copy starts warm
and need not write."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CompileRules(BuildHookInterface[Any]):
    """Build hook of the wheel; an editable install reads the rules of the checkout and compiles them there."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if version == "editable" or self.target_name != "wheel":
            return
        root = Path(self.root)
        sys.path.insert(0, str(root))
        try:
            from benchmate.talk.warming import warm

            for name in ("rules", "demo_trees"):
                for path in sorted((root / name).rglob("*")):
                    # what was derived from the demo garden while somebody looked at it is no part of it
                    if path.is_file() and ".benchmate" not in path.parts:
                        build_data["force_include"][str(path)] = f"benchmate/{path.relative_to(root).as_posix()}"
            self._folder = tempfile.TemporaryDirectory(prefix="benchmate-build-")
            into = Path(self._folder.name)
            for path in warm(root / "rules", into):
                name = path.relative_to(into).as_posix()
                build_data["force_include"][str(path)] = f"benchmate/compiled/{name}"
        finally:
            sys.path.remove(str(root))

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        if hasattr(self, "_folder"):
            self._folder.cleanup()
