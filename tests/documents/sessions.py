"""Console blocks of the documents: commands run again, so that what is shown is what the program says.

`python tests/documents/sessions.py` writes the outputs anew into README.md.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
_BLOCK = re.compile(r"```console\n(.*?)```", re.S)
_ENTRY_ID = re.compile(r"\b(\d{4}-\d{2}-\d{2})-[0-9a-z]{6}\b")


def blocks(text: str) -> list[str]:
    """The inside of every console block."""
    return [match.group(1) for match in _BLOCK.finditer(text)]


def commands(block: str) -> list[str]:
    return [line[2:] for line in block.splitlines() if line.startswith("$ ")]


def run_block(block: str, folder: Path) -> str:
    """The block with the output that its commands give now, run in a folder that holds a fresh demo_trees."""
    out = []
    for command in commands(block):
        argv = [sys.executable, "-m", *shlex.split(command)]
        env = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "PYTHONPATH": str(ROOT)}
        done = subprocess.run(argv, cwd=folder, env=env, capture_output=True, text=True, timeout=120, check=False)
        out.append(f"$ {command}\n{done.stdout}{done.stderr}")
    return _ENTRY_ID.sub(r"\1-xxxxxx", "\n".join(part.rstrip("\n") + "\n" for part in out))


def renewed(text: str) -> str:
    """The document with every console block run again, in order, in one fresh copy of the demo garden."""
    with tempfile.TemporaryDirectory() as home:
        shutil.copytree(ROOT / "demo_trees", Path(home) / "demo_trees", ignore=shutil.ignore_patterns(".benchmate"))
        return _BLOCK.sub(lambda match: f"```console\n{run_block(match.group(1), Path(home))}```", text)


if __name__ == "__main__":
    path = ROOT / "README.md"
    path.write_text(renewed(path.read_text(encoding="utf-8")), encoding="utf-8")
