"""Every phrase of a work, said plainly, is heard as that work or told as missed: never as another work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import pytest
from conftest import rule_tables

from benchmate.hearing import Ear
from benchmate.hearing.vocabulary.compiling import pattern_keys

ON = dt.date(2026, 6, 14)
TABLES = rule_tables()
WORKS = {
    work: cell for path, table in TABLES.items() if path.startswith("works/") for work, cell in table["work"].items()
}
# Particles that are said as they are written.
SAID = frozenset({"", "off", "out", "back", "down", "up", "on", "over", "round"})


def things() -> dict[str, str]:
    """The word for each part that a phrase may name; parts that only help to tell the work have none."""
    words = {part: said[0] for part, said in TABLES["words/places.toml"]["PART"].items() if not part.startswith("~")}
    words |= {means: said[0] for means, said in TABLES["words/findings.toml"]["MEANS"].items() if said}
    return {part: f"the {word}" for part, word in words.items() if "[" not in word}


def sentences(work: str) -> Iterator[str]:
    """ "take the wire off" for "take off: wire": the verb, what it is done to, the particle."""
    words = things()
    for pattern in WORKS[work]["says"]:
        for key in pattern_keys(pattern):
            verb, particle, part, share = key.split("|")
            if particle in SAID and not share and (not part or part in words):
                yield " ".join(word for word in (verb.replace("-", " "), words.get(part, "it"), particle) if word)


@pytest.mark.parametrize("work", WORKS)
def test_no_phrase_of_a_work_is_heard_as_another(work: str, ear: Ear) -> None:
    wrong = []
    for said in dict.fromkeys(sentences(work)):
        heard = [deed.work for deed in ear.hear(said, ON).work]
        if heard and work not in heard:
            wrong.append(f"{said!r} is heard as {heard}")
    assert not wrong, "\n".join(wrong)
