"""All rule files, parsed once: tables by relative path, with a fault for each file that does not read."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from benchmate.fault import Fault
from benchmate.rulebase.lines import line_of, syntax_line
from benchmate.rulebase.where import RuleFolders
from benchmate.value import dataclass, field

Table = dict[str, Any]
LARGEST_BYTES = 1 << 22
HOMES = {
    "rule": "practice",
    "caution": "cautions",
    "work": "works",
    "ask": "words",
    "taxon": "species",
    "question": "answers",
}


@dataclass(frozen=True, slots=True)
class RuleFile:
    """One file as it stands. path: as the user would type it. name: relative, with slashes ("practice/leaf-cut.toml").
    layer: 0 for the built-in rules, 1 and up for what is laid over them."""

    path: str
    name: str
    layer: int
    text: str
    table: Table

    @property
    def home(self) -> str:
        """The name under which its tables are kept: a file at the top of a grower's folder goes where its sections
        belong."""
        if "/" in self.name or self.layer == 0:
            return self.name
        return next((f"{home}/{self.name}" for section, home in HOMES.items() if section in self.table), self.name)


@dataclass(frozen=True, slots=True)
class RuleTables:
    """The rules of all folders, merged. tables: by relative name, what the rest of the program compiles.

    files: every file as it stands, for checks that need text and line. yours: ids of rules that come from a folder laid
    over the built-in ones. replaced: those of them that stand in for a built-in rule, with the file that they replace.
    """

    tables: Mapping[str, Table]
    files: tuple[RuleFile, ...] = ()
    faults: tuple[Fault, ...] = ()
    yours: frozenset[str] = frozenset()
    replaced: Mapping[str, str] = field(default_factory=dict)

    def place_of(self, name: str, id: str = "", key: str = "") -> tuple[str, int]:
        """Path and line to print for a fault about `id` in the file called `name`."""
        files = [file for file in self.files if file.home == name or (id and file.layer)]
        # the top layer speaks last; a rule that replaces a built-in one may stand in a file of any name
        for file in reversed(files):
            if line_of(file.text, id) and (line := line_of(file.text, id, key)):
                return file.path, line
        own = [file.path for file in files if file.home == name]
        return (own[-1] if own else name), 0


def rule_files(folder: Path) -> Iterator[Path]:
    """The TOML files of a folder in a fixed order, hidden ones left out."""
    for path in sorted(folder.rglob("*.toml")):
        if not any(part.startswith(".") for part in path.relative_to(folder).parts):
            yield path


def read_folder(folder: Path, layer: int) -> tuple[list[RuleFile], list[Fault]]:
    """Every file of one folder. A file that cannot be read is a fault and stops no other."""
    files: list[RuleFile] = []
    faults: list[Fault] = []
    for path in rule_files(folder):
        name = path.relative_to(folder).as_posix()
        try:
            if path.stat().st_size > LARGEST_BYTES:
                problem = f"it is larger than {LARGEST_BYTES >> 20} MB, and is not read"
                faults.append(Fault(str(path), 0, "", problem, "split it into several files"))
                continue
            text = path.read_text(encoding="utf-8")
            files.append(RuleFile(str(path), name, layer, text, tomllib.loads(text)))
        except tomllib.TOMLDecodeError as error:
            problem = str(error).split(" (at ", 1)[0].rstrip(".").lower()
            faults.append(Fault(str(path), syntax_line(str(error)), "", f"not TOML: {problem}", "mend this line"))
        except UnicodeDecodeError as error:
            line = error.object[: error.start].count(b"\n") + 1
            faults.append(Fault(str(path), line, "", "not UTF-8 text", "save the file as UTF-8"))
        except RecursionError:
            faults.append(Fault(str(path), 0, "", "brackets within brackets without end", "close them"))
        except OSError as error:
            why = (error.strerror or "unknown reason").lower()
            faults.append(Fault(str(path), 0, "", f"cannot be read: {why}", "check the file and its permissions"))
    return files, faults


def read_tables(folders: RuleFolders) -> RuleTables:
    """All folders, read and laid over one another."""
    from benchmate.rulebase.overlay import lay_over

    files: list[RuleFile] = []
    faults: list[Fault] = []
    for layer, folder in enumerate(folders.all):
        found, wrong = read_folder(folder, layer)
        files += found
        faults += wrong
    return lay_over(files, faults)
