"""What the page says of years, growth and decisions: one case a table."""

import tomllib
from pathlib import Path

import pytest
from page_sheets import entry, sheet

from benchmate.telling import lay
from benchmate.telling.page import growth_lines
from benchmate.telling.page.decisions import MOST, decisions
from benchmate.telling.page.years import MOST_WORDS, year_rows

CASES = Path(__file__).parent / "cases"


def cases(name):
    table = tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8"))
    return [pytest.param(case, id=id) for id, case in table.items()]


@pytest.mark.parametrize("case", cases("growth"))
def test_growth(case):
    entries = [entry(day, "seen", measures={"diameter_mm": size}) for day, size in case["sizes"]]
    units = case.get("units", "metric")
    told = lay(growth_lines(entries, units, plain=True)).split("\n")
    assert [row.strip() for row in told if not row.startswith("    ")] == case["says"]
    assert len(told) - len(case["says"]) in (0, len(case["sizes"])), "a line each, or none where they are too few"


@pytest.mark.parametrize("case", cases("years"))
def test_years(case):
    entries = [entry(number=number, **one) for number, one in enumerate(case["entries"])]
    rows = year_rows(sheet(entries))
    told = [{"label": row.label, "told": row.told, "marks": [list(mark) for mark in row.marks]} for row in rows]
    assert told == case["rows"]


@pytest.mark.parametrize("case", cases("decisions"))
def test_decisions(case):
    told, before = decisions(sheet([entry(number=number, **one) for number, one in enumerate(case["entries"])]))
    assert before == 0
    for one, wanted in zip(told, case["told"], strict=True):
        assert (one.day, one.what) == (wanted["day"], wanted["what"])
        assert one.reason == wanted.get("reason", "")
        assert list(one.refused) == wanted.get("refused", [])
        assert one.said == wanted.get("said", "")


def test_older_decisions_are_counted_not_lost():
    cuts = [entry(f"20{year}-06-08", work=[{"work": "repot"}]) for year in range(10, 20)]
    told, before = decisions(sheet(cuts))
    assert len(told) == MOST and before == 10 - MOST
    assert told[0].day == "8 June 2019"


def test_a_full_year_says_how_much_more_there_is():
    works = [entry("2026-05-01", "note", f"thing {number}", number=number) for number in range(MOST_WORDS + 5)]
    (row,) = year_rows(sheet(works))
    assert row.told.endswith("; 5 more in the record") and row.told.count(";") == MOST_WORDS


def test_what_comes_after_the_sheets_day_is_in_no_year():
    rows = year_rows(
        sheet([entry("2026-05-01", "seen", facts=[{"kind": "event", "value": "repot", "when": "2031-03"}])])
    )
    assert rows == []
