"""The wheel and the sdist: what they carry, and that a copy of the wheel starts warm where nothing may be written."""

import json
import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest
from holding_files import ROOT

pytest.importorskip("hatchling")
WATCHED = Path(__file__).with_name("watched.py")
SAID = "hornbeam, second flush, two competing leaders, what now"
ON = ("--on", "2026-06-14")


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """Folder with the wheel and the sdist of this checkout."""
    out = tmp_path_factory.mktemp("built")
    done = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "--directory", str(out)], cwd=ROOT, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return out


@pytest.fixture
def installed(built, tmp_path):
    """A folder of packages with the wheel's files in it, written in the wheel's order as installers do."""
    site = tmp_path / "site"
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        wheel.extractall(site)
    return site


@pytest.fixture
def run_copy(installed, program, tmp_path):
    """Runs the installed copy on a disk of which the packages are read-only; gives what ran and what it wrote."""

    def run(*words):
        report = tmp_path / "report.jsonl"
        report.unlink(missing_ok=True)
        done = program(
            str(report), "--shut", str(installed), "--", *words,
            code=("-X", "importtime", str(WATCHED)), env={"PYTHONPATH": str(installed)}, cwd=tmp_path,
        )  # fmt: skip
        told = [json.loads(line) for line in report.read_text().splitlines()] if report.exists() else []
        assert done.returncode == 0, done.stderr
        return done, {Path(path) for what, path in told if what == "write"}

    return run


def reading(done):
    return json.loads(done.stdout)


def test_the_wheel_carries_rules_demo_and_licence(built):
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        names = wheel.namelist()
        told = wheel.read(next(name for name in names if name.endswith("/METADATA"))).decode()
        entry = wheel.read(next(name for name in names if name.endswith("/entry_points.txt"))).decode()
        compiled = [wheel.read(name) for name in names if name.startswith("benchmate/compiled/")]
    held = {name.removeprefix("benchmate/") for name in names}
    for folder, ending in (("rules", "*.toml"), ("demo_trees", "*.toml")):
        mine = [path for path in (ROOT / folder).rglob(ending) if ".benchmate" not in path.parts]
        assert mine and not {path.relative_to(ROOT).as_posix() for path in mine} - held
    assert "License-Expression: MIT" in told.splitlines()
    assert "benchmate = benchmate.cli:main" in entry
    assert not [name for name in names if ".benchmate" in name or name.startswith(("tests", "benchmate/tests"))]
    assert {name.split("-")[0].split("/")[-1] for name in held if name.startswith("compiled/")} >= {
        "lexicon", "book", "grammar", "figures", "figure_words", "glossary", "answers", "shipped.json",
    }  # fmt: skip
    assert not [body for body in compiled if str(ROOT).encode() in body], "a path of the builder's machine is in it"


def test_the_sdist_carries_all_that_a_build_needs(built):
    with tarfile.open(next(built.glob("*.tar.gz"))) as sdist:
        names = {name.split("/", 1)[1] for name in sdist.getnames() if "/" in name}
    for path in ("pyproject.toml", "README.md", ".ci/compile_rules.py", "rules/sources.toml", "demo_trees/garden.toml"):
        assert path in names
    assert "tests/holding/test_package.py" in names
    assert not [name for name in names if name.startswith("benchmate/compiled") or ".benchmate" in name]


def test_an_installed_copy_starts_warm_and_writes_nothing(run_copy):
    done, wrote = run_copy("hear", SAID, *ON, "--json")
    assert reading(done)["facts"]
    assert wrote == set()
    imported = {line.rsplit("|", 1)[-1].strip() for line in done.stderr.splitlines()}
    assert not imported & {"lark", "tomllib", "pydantic", "prompt_toolkit", "rapidfuzz"}


def test_beside_read_only_packages_only_the_garden_is_written(run_copy, garden):
    done, wrote = run_copy("say", "fed it today", "--tree", "Ratchet", "--garden", str(garden), *ON, "--json")
    assert reading(done)["logged"]
    assert garden / "ratchet" / "journal.toml" in wrote
    assert not [path for path in wrote if garden not in path.parents]


@pytest.mark.parametrize("how", ["cut", "altered", "foreign", "gone"])
def test_a_damaged_copy_answers_as_a_sound_one(run_copy, installed, garden, how):
    ask = ("say", SAID, "--garden", str(garden), *ON, "--dry", "--json")
    sound = reading(run_copy(*ask)[0])
    for path in (installed / "benchmate" / "compiled").rglob("*.json"):
        body = path.read_bytes()
        if how == "gone":
            path.unlink()
        elif how == "foreign":
            path.write_bytes(b"benchmate other " + body)
        else:
            path.write_bytes(body[:-9] if how == "cut" else body[:-9] + b"#" + body[-8:])
    assert reading(run_copy(*ask)[0]) == sound
    # the second time what was built anew stands in the garden, and a damaged file beside the package hides it from none
    again, wrote = run_copy(*ask)
    assert reading(again) == sound
    assert not [
        path for path in wrote if path.suffix == ".json" and "index" not in path.name and "trees" not in path.name
    ]


def test_a_rule_that_was_edited_in_an_installed_copy_counts(run_copy, installed):
    path = installed / "benchmate" / "rules" / "words" / "filler.toml"
    before = reading(run_copy("hear", "hornbeam frobnicate", "--json")[0])
    assert before["missed"] == ["frobnicate"]
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("filler = [", 'filler = [\n    "frobnicate",', 1), encoding="utf-8")
    assert reading(run_copy("hear", "hornbeam frobnicate", "--json")[0])["missed"] == []
    # back again, in another second: the same words as shipped, so what was shipped holds by its content
    path.write_text(text, encoding="utf-8")
    os.utime(path)
    assert reading(run_copy("hear", "hornbeam frobnicate", "--json")[0]) == before
