"""Trees, entries and a small garden of their own for the tests of the page."""

import datetime as dt
from pathlib import Path

from benchmate.garden import new_garden, new_tree
from benchmate.garden.record import Entry, Place, Tree
from benchmate.telling.page import Sheet

ON = dt.date(2026, 6, 14)
GROUPS = {
    "repot": "roots", "collect": "roots", "root-prune": "roots", "shorten": "cutting", "remove": "cutting",
    "leaf-cut": "cutting", "wire": "shaping", "unwire": "shaping", "feed": "care", "shade": "care",
}  # fmt: skip
HOSTILE = (
    "<script>document.title='x'</script>",
    "</td></tr></table><img src=http://outside.invalid/a.png onerror=x()>",
    "\x1b]0;pwned\x07\x1b[2J\x1b[31mred",
    "a \"quoted\" 'thing' & an &amp; entity",
    "\u202egnirts\u2066 \u200b\ufeff",
    "<!-- ]]> --> <style>*{display:none}</style>",
    "A" * 400,
)


def entry(at, kind="done", said="", **more):
    """An entry as the garden gives it. at: a day, or its ISO text."""
    day = dt.date.fromisoformat(at) if isinstance(at, str) else at
    number = more.pop("number", 0)
    for key in ("facts", "work", "refused", "follow"):
        more[key] = tuple(more.get(key, ()))
    return Entry(f"{day.isoformat()}-{number}", day, kind, said, **more)


def sheet(entries=(), on=ON, **more):
    """A sheet of a field maple with these entries, in their order."""
    tree = more.pop("tree", None) or Tree("Gatepost", "gatepost", "Acer campestre", "hedge", since=dt.date(2022, 3, 12))
    return Sheet(tree, on, tuple(entries), common_name="field maple", groups=GROUPS, **more)


def old_yew(home: Path):
    """A garden with one long record (years without a word, cuts, wire, hostile words), a tree with one measurement, and
    one with nothing."""
    garden = new_garden(home, Place("Test garden", 51.5, -0.5, (4, 25), (10, 20)))
    yew = new_tree(
        garden, "Knuckle", "Taxus baccata", since=dt.date(2009, 4, 1), phase="refinement", health="strong",
        origin="collected, <b>hillside</b>",
    )  # fmt: skip
    garden.append_all(yew, list(_yew_entries()))
    sprig = new_tree(garden, "Sprig", "Acer palmatum", since=dt.date(2026, 6, 1))
    garden.append(sprig, Entry("", dt.date(2026, 6, 2), "seen", "trunk is 8 mm", measures={"diameter_mm": 8.0}))
    new_tree(garden, "Blank", None)
    return garden


def _yew_entries():
    work = [{"work": "collect", "share": 0.4}]
    yield Entry("", dt.date(2009, 4, 1), "done", "collected it", work=tuple(work))
    for year in (2014, 2015, *range(2018, 2027)):
        size = {"diameter_mm": 40.0 + 3 * (year - 2014), "height_mm": 300.0 + 20 * (year - 2014)}
        yield Entry("", dt.date(year, 3, 10), "seen", "trunk and height", measures=size)
        if year % 3 == 0:
            cut = {"work": "repot", "share": 0.25}
            yield Entry("", dt.date(year, 3, 20), "done", "repotted it", work=(cut,), reason=HOSTILE[1])
        for month in range(4, 10):
            yield Entry("", dt.date(year, month, 3), "done", "fed it", work=({"work": "feed"},))
        cut = {"work": "shorten", "part": "shoot", "share": 0.2} if year % 2 else {"work": "shorten", "part": "shoot"}
        refused = ("wire", "take the left branch off", HOSTILE[0])
        yield Entry("", dt.date(year, 6, 8), "done", "cut it", work=(cut,), reason="firm shoots", refused=refused)
        if year % 4 == 0:
            follow = {"work": "check", "part": "wire", "on": dt.date(year + 1, 3, 1), "says": HOSTILE[2]}
            yield Entry(
                "", dt.date(year, 11, 2), "done", "wired it", work=({"work": "wire", "side": "left"},), follow=(follow,)
            )
    for words in HOSTILE:
        yield Entry("", dt.date(2026, 5, 1), "note", words)
        yield Entry("", dt.date(2026, 5, 2), "left", words, work=({"work": "remove"},), reason=words, refused=(words,))
