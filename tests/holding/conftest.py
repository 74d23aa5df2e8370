"""A copy of the demo garden, and the program run in a process of its own."""

import os
import shutil
import subprocess
import sys

import pytest
from holding_files import DEMO


@pytest.fixture
def garden(tmp_path):
    home = tmp_path / "garden"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


@pytest.fixture
def program(tmp_path):
    """Runs `benchmate WORDS`; what it finds as home and as the place for temporary files lies below tmp_path."""

    def run(*words, code=("-m", "benchmate"), env=None, **more):
        left_out = ("BENCHMATE_GARDEN", "COLUMNS", "NO_COLOR")
        own = {key: value for key, value in os.environ.items() if key not in left_out}
        for name in ("home", "tmp"):
            (tmp_path / name).mkdir(exist_ok=True)
        own |= {"HOME": str(tmp_path / "home"), "TMPDIR": str(tmp_path / "tmp"), "TERM": "xterm"}
        own |= {"PYTHONDONTWRITEBYTECODE": "1"} | (env or {})
        return subprocess.run(
            [sys.executable, *code, *words], capture_output=True, text=True, encoding="utf-8", env=own, **more
        )

    return run
