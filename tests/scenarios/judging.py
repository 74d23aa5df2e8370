"""What a sound answer must contain: an advice case's `expect` held against the answer and the entries it left.

verdicts        each work is among the options with a verdict of the set (and the part, side, level where given)
verdicts_any    at least one of these is
not_go          would harm: none of these comes out as "go"; a table narrows it to a part, side or level, and with a
                share, a "go" whose amount stays at or under it is sound
cautions_all / cautions_any / cautions_none   ids that must all / one of which must / that must not be told
asks_any        one of these facts is asked for
logged          whether anything was logged
journal         each is matched by a new entry: its kind, a work among its work
follow_any      a follow-up with one of these works; follow_between = its date
from_between    when the work's window starts
first           the work of the best option
says_any        one of these words occurs in what is told, in any case
error           exit status 1, one plain line on standard error, the journal as it was
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

Plain = Mapping[str, Any]
_WHERE = ("part", "side", "level")
EXPECTS = {
    *("verdicts", "verdicts_any", "not_go", "cautions_all", "cautions_any", "cautions_none", "asks_any", "logged"),
    *("journal", "follow_any", "follow_between", "from_between", "says_any", "error", "first"),
}


def dangers(expect: Plain, answer: Plain) -> list[str]:
    """Works of `not_go` that came out as "go". A part, side or level that the option leaves out counts as meant."""
    wanted = [{"work": want} if isinstance(want, str) else want for want in expect.get("not_go", ())]
    return [_words(want) for want in wanted if any(_may_harm(option, want) for option in answer.get("options", ()))]


def faults(expect: Plain, answer: Plain, new_entries: Sequence[Plain]) -> list[str]:
    """What is wrong with the answer, a line each; the dangerous works are among them."""
    options = answer.get("options", ())
    follows = [follow for option in options for follow in option.get("follow") or ()] + list(answer.get("follow") or ())
    wrong = [f"{work}: must not be go" for work in dangers(expect, answer)]
    wrong += [
        f"{_words(want)}: wanted {want['in']}, got {_verdicts(options, want)}"
        for want in expect.get("verdicts", ())
        if not set(_verdicts(options, want)) & set(want["in"])
    ]
    any_of = expect.get("verdicts_any", ())
    if any_of and not any(set(_verdicts(options, want)) & set(want["in"]) for want in any_of):
        wrong.append(f"wanted one of {[_words(want) for want in any_of]}, got {[_words(o) for o in options]}")
    if "first" in expect and (not options or options[0]["work"] != expect["first"]):
        wrong.append(f"first {expect['first']}: got {[_words(option) for option in options]}")
    told = {caution["id"] for caution in answer.get("cautions", ())}
    wrong += [f"caution {one} is missing" for one in expect.get("cautions_all", ()) if one not in told]
    wrong += [f"caution {one} is out of place" for one in expect.get("cautions_none", ()) if one in told]
    had = {
        "cautions_any": told,
        "asks_any": {ask["fact"] for ask in answer.get("asks", ())},
        "follow_any": {follow["work"] for follow in follows},
    }
    wrong += [f"{key} {expect[key]}: has {sorted(got)}" for key, got in had.items() if _none_of(expect.get(key), got)]
    dates = {
        "follow_between": [(follow["work"], follow.get("on")) for follow in follows],
        "from_between": [(option["work"], option.get("from")) for option in options],
    }
    for key, pairs in dates.items():
        if span := expect.get(key):
            got_dates = [str(on)[:10] for work, on in pairs if work == span["work"] and on]
            if not any(str(span["lo"]) <= on <= str(span["hi"]) for on in got_dates):
                wrong.append(f"{span['work']} on {got_dates}, wanted {span['lo']} to {span['hi']}")
    if "logged" in expect and bool(answer.get("logged")) != expect["logged"]:
        wrong.append(f"logged is {answer.get('logged')}")
    for want in expect.get("journal", ()):
        if not any(_entry_fits(entry, want) for entry in new_entries):
            wrong.append(f"no new entry with {want}")
    words = expect.get("says_any")
    if words and not any(word.lower() in "\n".join(_said(answer)).lower() for word in words):
        wrong.append(f"says none of {words}")
    return wrong


def error_faults(status: int, complaint: str, new_entries: Sequence[Plain]) -> list[str]:
    """What is wrong with how an input at fault was met."""
    wrong = [] if status == 1 else [f"exit status {status}, 1 was due"]
    if len([line for line in complaint.splitlines() if line.strip()]) != 1:
        wrong.append(f"one plain line was due, got {complaint!r}")
    return wrong + [f"logged {entry}" for entry in new_entries]


def _none_of(wanted: Sequence[str] | None, got: set[str]) -> bool:
    return bool(wanted) and not got & set(wanted or ())


def _verdicts(options: Sequence[Plain], want: Plain) -> list[str]:
    return sorted(
        option["verdict"]
        for option in options
        if option["work"] == want["work"] and all(option.get(key) == want[key] for key in _WHERE if key in want)
    )


def _may_harm(option: Plain, want: Plain) -> bool:
    if option["verdict"] != "go" or option["work"] != want["work"]:
        return False
    share = (option.get("amount") or {}).get("share")
    if "share" in want and isinstance(share, int | float) and share <= want["share"]:
        return False
    return all(option.get(key) in (None, want[key]) for key in _WHERE if key in want)


def _entry_fits(entry: Plain, want: Plain) -> bool:
    works = [work.get("work") for work in entry.get("work", ())]
    return all(value in works if key == "work" else entry.get(key) == value for key, value in want.items())


def _words(want: Plain) -> str:
    return " ".join(str(want[key]) for key in ("work", *_WHERE, "verdict") if want.get(key))


def _said(value: Any) -> Iterator[str]:
    """Every sentence of the answer: the told text and each `says`, none of the reading."""
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key in ("told", "says") and isinstance(inner, str):
                yield inner
            elif key != "reading":
                yield from _said(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _said(inner)
