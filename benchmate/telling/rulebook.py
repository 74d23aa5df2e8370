"""Rules told: one whole, with its source, or all of them a line each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.telling import lines as role
from benchmate.telling.depth import source_words
from benchmate.telling.lines import Line
from benchmate.telling.wording import list_words, part_words, sentence

if TYPE_CHECKING:
    from benchmate.practice.book import Rule

_VERDICT = {"go": "speaks for it", "hold": "not yet", "avoid": "not on this tree"}


def rule_line(rule: Rule) -> Line:
    """A rule in one line: id, works, what it says."""
    yours = " (your rule)" if rule.yours else ""
    return Line(
        f"{list_words(list(rule.work[:4]))}{' ...' if len(rule.work) > 4 else ''}: {rule.says}{yours}",
        role.REASON,
        f"{rule.id}  ",
    )


def rule_lines(
    rule: Rule, sources: Mapping[str, Mapping[str, Any]], examples: Sequence[Mapping[str, Any]] = (), place: str = ""
) -> list[Line]:
    """One rule whole: what it says first, then when it holds, what it does, what it rests on, its examples."""
    rests = source_words(rule.source, rule.mark, sources)
    table = sources.get(rule.source or "", {})
    title = f", {table['title']}" if table.get("title") else ""
    where = f", {rule.where}" if rule.where else ""
    lines = [Line(sentence(rule.says or rule.id), role.ANSWER)]
    rows = [
        ("Rule: ", rule.id + (", your rule" if rule.yours else "")),
        ("Work: ", list_words(list(rule.work))),
        ("Part: ", list_words([part_words(part) for part in rule.part])),
        ("Manner: ", rule.manner or ""),
        ("When: ", rule.when or "always"),
        ("And: ", list_words(_conditions(rule))),
        ("Verdict: ", _VERDICT.get(rule.verdict or "", "") or (f"weighs {rule.weight:+d}" if rule.weight else "")),
        ("At most: ", list_words([f"{key} {value:g}" for key, value in rule.amount.items()])),
        ("Opens: ", _window(rule.opens)),
        ("Closes: ", _window(rule.closes)),
        ("Then: ", "; ".join(str(follow.get("says", "")) for follow in rule.follow)),
        ("Cautions: ", list_words(list(rule.cautions))),
        ("Goes before: ", list_words(list(rule.beats))),
        ("Disputed by: ", list_words(list(rule.disputes))),
        ("Rests on: ", f"{rests}{title}{where}"),
        ("Stands in: ", place or rule.file),
    ]
    lines += [Line(words if words[-1] in ".!?" else f"{words}.", role.REASON, lead, 2) for lead, words in rows if words]
    for example in examples:
        lines.append(Line(example_words(example), role.REASON, "Example: ", 2))
    return lines


def example_words(example: Mapping[str, Any]) -> str:
    """An example of a rule: what is said, and what it gives."""
    if example.get("fires") is False:
        gives = "does not fire"
    elif example.get("asks"):
        gives = f"asks for {example['asks']}"
    else:
        gives = f"gives {example.get('gives', 'this reason')}"
    return f'"{example.get("say", "")}" {gives}.'


def _conditions(rule: Rule) -> list[str]:
    said = [limit.words for limit in rule.limits]
    said += [f"{work.replace('-', ' ')} in the last {_days(days)}" for work, days in rule.within]
    said += [f"no {work.replace('-', ' ')} in the last {_days(days)}" for work, days in rule.not_within]
    if rule.between:
        said.append(f"from {rule.between[0]} to {rule.between[1]} (north)")
    return said


def _days(days: int | str) -> str:
    return str(days) if isinstance(days, str) else f"{days} days"


def _window(window: Mapping[str, Any] | None) -> str:
    return ", ".join(f"{key.replace('_', ' ')} {value}" for key, value in window.items()) if window else ""


def count_line(rules: Iterable[Rule], faults: int) -> Line:
    """How many rules there are, and how many of them are the grower's own."""
    kept = list(rules)
    yours = sum(rule.yours for rule in kept)
    count = f"{len(kept)} rules, {yours} of them yours"
    return Line(
        f"{count}." if not faults else f"{count}; {faults} {'fault' if faults == 1 else 'faults'}.", role.ANSWER
    )


def cover_lines(table: Mapping[str, Mapping[str, str]], works: Sequence[str]) -> list[Line]:
    """Taxa by work, a line a taxon: by a rule of its own, by its kind, by rules for all trees, or not known."""
    words = {"rule": "by rule", "kind": "by its kind", "default": "by default", "none": "not known"}
    lines = [Line("Taxa by work: by a rule that names the taxon, by its kind, by default, or not known.", role.ANSWER)]
    for taxon, row in table.items():
        if len(works) == 1:
            told = words.get(row[works[0]], row[works[0]])
        else:
            kinds = {how: [work for work in works if row.get(work) == how] for how in words}
            told = "; ".join(f"{words[how]}: {', '.join(found)}" for how, found in kinds.items() if found)
        lines.append(Line(f"{told}.", role.REASON, f"{taxon}: "))
    return lines
