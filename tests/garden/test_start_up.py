"""What the way of one statement imports and reads: no more than it needs, and no socket anywhere."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from orchard import plant

SLOW = ("pydantic", "tomli_w", "difflib", "rapidfuzz", "csv", "secrets", "hashlib", "socket", "subprocess")
STATEMENT = """
import sys, datetime, builtins, io, os
opened = []
real = os.open
def note(path, *more, **rest):
    opened.append(os.fspath(path)); return real(path, *more, **rest)
os.open = note
sys.addaudithook(lambda event, args: opened.append(str(args[0])) if event == "open" else None)
from benchmate.garden import Entry, open_garden
garden = open_garden(sys.argv[1])
garden.place
tree = garden.find("gatepost 2")
garden.entries(tree)
garden.tail(tree, 5)
garden.append(tree, Entry("", datetime.date(2026, 6, 14), "note", "words"))
print(*sorted(sys.modules))
print(*{path for path in opened if "journal" in path and path.endswith(".toml")})
"""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[list[str]]:
    """Modules and journals of one statement in a new process."""
    home = tmp_path_factory.mktemp("start") / "orchard"
    plant(home, 30, 20)
    done = subprocess.run([sys.executable, "-c", STATEMENT, home], capture_output=True, text=True, check=True)
    return [line.split() for line in done.stdout.splitlines()]


@pytest.mark.parametrize("module", SLOW)
def test_one_statement_does_without(told: list[list[str]], module: str) -> None:
    assert module not in told[0]


def test_one_statement_reads_one_journal(told: list[list[str]]) -> None:
    assert {Path(path).parent.name for path in told[1]} == {"gatepost-2"}


def test_every_public_name_is_there() -> None:
    import benchmate.garden as garden

    for name in garden.__all__:
        assert getattr(garden, name).__module__.startswith("benchmate.garden")
    with pytest.raises(AttributeError, match="no attribute 'orchid'"):
        garden.orchid  # noqa: B018
