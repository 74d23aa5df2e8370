"""What a supposed fact would change, in plain lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.telling.options import option_words, verdict_words
from benchmate.telling.wording import quoted_words

if TYPE_CHECKING:
    from benchmate.practice.what_if import Change, WhatIf

_MOST = 6


def change_words(changed: WhatIf, on: dt.date, cautions: Mapping[str, Any], missed: Sequence[str] = ()) -> list[str]:
    """The changes, the answer first: verdicts that turn, then reasons that come or go, then cautions. missed: words of
    the question that were not taken in, so that what they would change is not known."""
    turned = [_turned(change, on) for change in changed.changes if change.verdicts[0] != change.verdicts[1]]
    others = [
        words for change in changed.changes if change.verdicts[0] == change.verdicts[1] for words in _kept(change)
    ]
    said = [words for words in turned if words] + others
    gained = dict.fromkeys(_caution(id, cautions) for id in changed.cautions_gained)
    lost = dict.fromkeys(_caution(id, cautions) for id in changed.cautions_lost)
    # two kinds may be minded for the same: then nothing comes and nothing goes
    said += [f"Then minded: {words}." for words in gained if words not in lost]
    said += [f"No longer minded: {words}." for words in lost if words not in gained]
    if not said and missed:
        return [
            f"What is supposed was not taken in: {quoted_words(missed)}",
            "So what it would change is not told here.",
        ]
    if not said:
        return ["Nothing would change"]
    return [words[:1].upper() + words[1:] for words in said[:_MOST]]


def _turned(change: Change, on: dt.date) -> str:
    before, after = change.before, change.after
    if after is None:
        return f"{option_words(before)} would fall away." if before else ""
    why = next((reason.says for reason in change.gained), "")
    if before is None:
        return f"{option_words(after)} would come up: {verdict_words(after, on)}. {why}".strip()
    was = verdict_words(before, on)
    return f"{option_words(after)} would be: {verdict_words(after, on)}, instead of {was}. {why}".strip()


def _kept(change: Change) -> list[str]:
    option = change.after or change.before
    if option is None:
        return []
    head = option_words(option)
    return [f"{head}: {reason.says}" for reason in change.gained[:2]]


def _caution(id: str, cautions: Mapping[str, Any]) -> str:
    row = cautions.get(id, {})
    return str(row.get("short") or row.get("says") or id.replace("-", " ")).rstrip(".")
