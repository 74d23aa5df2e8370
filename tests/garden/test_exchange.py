"""Journals out to CSV and JSON Lines and in again: nothing lost, nothing doubled, whatever the words hold."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import os
from pathlib import Path

import pytest
from entries import ROUNDS, any_entry, said
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from orchard import plant

from benchmate.garden.exchange import COLUMNS, export_csv, export_json_lines, import_csv, import_json_lines
from benchmate.garden.making import new_garden, new_tree
from benchmate.garden.record import Entry, Place, Tree
from benchmate.garden.store import Garden, open_garden

FORMS = {"csv": (export_csv, import_csv), "json": (export_json_lines, import_json_lines)}


def journals(garden: Garden) -> dict[str, bytes]:
    return {tree.folder: (garden.path / tree.folder / "journal.toml").read_bytes() for tree in garden.trees()}


@pytest.mark.parametrize("form", FORMS)
def test_a_garden_goes_out_and_comes_in_the_same(form: str, tmp_path: Path) -> None:
    leave, enter = FORMS[form]
    plant(tmp_path / "old", 5, 30)
    old, new = open_garden(tmp_path / "old"), new_garden(tmp_path / "new", Place())
    out = io.StringIO(newline="")
    assert leave(old, out) == 150
    taken = enter(new, io.StringIO(out.getvalue(), newline=""), make_trees=True)
    assert (taken.added, taken.known, taken.faults) == (150, 0, ())
    assert journals(new) == journals(old)
    again = enter(new, io.StringIO(out.getvalue(), newline=""))
    assert (again.added, again.known, again.faults) == (0, 150, ())
    assert journals(new) == journals(old)


@settings(
    max_examples=25 * ROUNDS,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(st.lists(any_entry(), max_size=4, unique_by=lambda entry: entry.id))
def test_whatever_an_entry_holds_survives(tmp_path_factory: pytest.TempPathFactory, entries: list[Entry]) -> None:
    home = tmp_path_factory.mktemp("any")
    old = new_garden(home / "old", Place())
    tree = new_tree(old, "Gatepost")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda descriptor: None)
        old.append_all(tree, entries)
        for form, (leave, enter) in FORMS.items():
            new = new_garden(home / form, Place())
            new_tree(new, "Gatepost")
            out = io.StringIO(newline="")
            leave(old, out)
            taken = enter(new, io.StringIO(out.getvalue(), newline=""))
            assert (taken.added, taken.faults) == (len(entries), ())
            assert repr(new.entries(tree)) == repr(old.entries(tree))


def test_cells_that_a_spreadsheet_would_run_are_made_harmless(garden: Garden, tree: Tree) -> None:
    words = ["=1+1", "+1", "-1", "@x", "'quoted", "plain"]
    for word in words:
        garden.append(tree, said(word))
    out = io.StringIO(newline="")
    export_csv(garden, out)
    rows = list(csv.DictReader(io.StringIO(out.getvalue(), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert [row["said"] for row in rows] == ["'=1+1", "'+1", "'-1", "'@x", "''quoted", "plain"]


def test_one_tree_alone_and_names_of_another_garden(garden: Garden, tree: Tree, tmp_path: Path) -> None:
    other = new_tree(garden, "Anvil")
    garden.append(tree, said("here"))
    garden.append(other, said("there"))
    out = io.StringIO()
    assert export_json_lines(garden, out, [tree]) == 1
    row = json.loads(out.getvalue())
    assert (row["tree"], row["name"], row["said"], row["at"]) == ("gatepost", "Gatepost", "here", "2026-06-14")
    elsewhere = new_garden(tmp_path / "elsewhere", Place())
    new_tree(elsewhere, "gate post")
    assert import_json_lines(elsewhere, io.StringIO(out.getvalue())).added == 1


BAD_LINES = {
    "no object": ("[1, 2]", "the line is no JSON object"),
    "no JSON": ("{", "the line is no JSON object"),
    "too deep": ("[" * 99999, "the line is no JSON object"),
    "no day": ('{"tree": "gatepost", "kind": "note", "said": "x"}', "the entry has no day"),
    "bad day": ('{"tree": "gatepost", "kind": "note", "at": "2026-02-30"}', "at cannot be '2026-02-30'"),
    "no tree": ('{"tree": "zebra", "kind": "note", "at": "2026-02-03"}', "no tree 'zebra' in the garden for 1 entries"),
    "no kind": ('{"tree": "gatepost", "at": "2026-02-03"}', "the entry has no kind"),
    "wrong type": ('{"tree": "gatepost", "at": "2026-02-03", "kind": "note", "work": "wire"}', "work cannot be 'wire'"),
    "odd tag": (
        '{"tree": "gatepost", "at": "2026-02-03", "kind": "note", "x": {"$date": 5}}',
        "at cannot be '2026-02-03'",
    ),
    "unlike": (
        '{"tree": "gatepost", "at": "2026-02-03", "kind": "done", "id": "known"}',
        "another entry of the tree has this id",
    ),
}


@pytest.mark.parametrize("case", BAD_LINES)
def test_a_bad_line_is_told_and_the_others_come_in(garden: Garden, tree: Tree, case: str) -> None:
    line, told = BAD_LINES[case]
    garden.append(tree, Entry("known", dt.date(2026, 2, 3), "note"))
    good = '{"tree": "gatepost", "at": "2026-06-14", "kind": "note", "said": "good"}\n'
    taken = import_json_lines(
        garden, io.StringIO(good + line + "\n\n" + good.replace("good", "second")), name="in.jsonl"
    )
    assert taken.faults[0].path == "in.jsonl" and taken.faults[0].line == 2
    assert told in taken.faults[0].problem
    assert {"good", "second"} <= {entry.said for entry in garden.entries(tree)}
    before = len(garden.entries(tree))
    again = import_json_lines(garden, io.StringIO(good))
    assert (again.added, again.known) == (0, 1)
    assert len(garden.entries(tree)) == before


def test_bad_csv_is_told(garden: Garden, tree: Tree) -> None:
    taken = import_csv(garden, io.StringIO("day,words\n2026-01-01,x\n"), name="in.csv")
    assert [fault.problem for fault in taken.faults] == ["the first line names no column at, tree"]
    rows = ("tree,at,kind,said,work", "2026-01-01,note,one,", '2026-01-02,note,two,"[{"', "2026-01-03,note,three")
    text = "\ngatepost,".join(rows) + "\n"
    taken = import_csv(garden, io.StringIO(text), name="in.csv")
    assert [(fault.line, fault.problem) for fault in taken.faults] == [(3, "the cell work holds no JSON: [{")]
    assert [entry.said for entry in garden.entries(tree)] == ["one", "three"]
    assert import_csv(garden, io.StringIO("")).faults
