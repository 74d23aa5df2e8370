"""The rule book: rules compiled to plain data, with an index from what is known to the rules that it touches."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, overload

from benchmate.fault import Fault
from benchmate.practice.condition import Claim, Condition
from benchmate.practice.taxa import Taxa
from benchmate.value import dataclass, field

Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Limit:
    """A number that decides: the quantity is over (`above`) or under `value`, strictly."""

    quantity: str
    above: bool
    value: float

    @property
    def words(self) -> str:
        return f"{self.quantity.replace('_', ' ')} {'over' if self.above else 'under'} {self.value:g}"


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule, compiled. `condition` and `limits` decide with `within`, `not_within` and `between` whether it holds;
    the rest is what it then says. kind: rule, cap (of foliage), root_cap, or caution. first: put forward also beside a
    work that is asked about. bring: where to it calls a tree, of the places under [sense.sheltering] in
    rules/words/filler.toml."""

    id: str
    kind: str = "rule"
    work: tuple[str, ...] = ()
    part: tuple[str, ...] = ()
    manner: str | None = None
    when: str = ""
    condition: Condition = ()
    limits: tuple[Limit, ...] = ()
    within: tuple[tuple[str, int | str], ...] = ()
    not_within: tuple[tuple[str, int | str], ...] = ()
    between: tuple[str, str] | None = None
    verdict: str | None = None
    weight: int = 0
    offers: bool = False
    first: bool = False
    bring: str | None = None
    spot: str | None = None
    says: str = ""
    amount: Mapping[str, float] = field(default_factory=dict)
    opens: Mapping[str, Any] | None = None
    closes: Mapping[str, Any] | None = None
    follow: tuple[Mapping[str, Any], ...] = ()
    cautions: tuple[str, ...] = ()
    beats: tuple[str, ...] = ()
    disputes: tuple[str, ...] = ()
    ask: bool = True
    mark: str = "practice"
    source: str | None = None
    where: str | None = None
    yours: bool = False
    file: str = ""

    @property
    def blocks(self) -> bool:
        return self.verdict in ("avoid", "hold")


@dataclass(frozen=True, slots=True)
class RuleBook:
    """All that the practice room knows, compiled from the rule files once.

    rules: by number, in the order of files; made from plain data when one is looked at. index: work -> gate -> numbers,
    see `gates.py`. taxa: taxon -> names, groups, traits, inherited. works, cautions, questions, sources: tables as the
    files have them. budget, places: practice's own tables. seasons: what the seasons room reads. faults: what did not
    compile; those rules are left out.
    """

    rules: Sequence[Rule]
    index: Mapping[str, Mapping[str, list[int]]]
    taxa: Mapping[str, Plain]
    works: Mapping[str, Plain]
    cautions: Mapping[str, Plain]
    questions: Mapping[str, Plain]
    sources: Mapping[str, Plain]
    budget: Plain
    places: Plain
    seasons: Plain
    faults: tuple[Fault, ...] = ()
    by_id: Mapping[str, int] = field(default_factory=dict)
    offered_works: tuple[str, ...] = ()

    @property
    def trait_names(self) -> tuple[str, ...]:
        """Every trait that some taxon has a cell for."""
        return tuple(self.places.get("traits", ()))

    def group(self, work: str) -> tuple[str, ...]:
        """The works of a group ("cutting", "any"), or the work itself."""
        return tuple(self.places.get("groups", {}).get(work, (work,)))

    def rule(self, id: str) -> Rule | None:
        number = self.by_id.get(id)
        return None if number is None else self.rules[number]


def rule_as_plain(rule: Rule) -> Plain:
    """The rule without its defaults, JSON-able."""
    out: Plain = {"id": rule.id}
    unsaid = Rule("")
    for name in _PLAIN:
        value = getattr(rule, name)
        if value not in (None, (), {}, "", False, 0) and value != getattr(unsaid, name):
            out[name] = value
    if not rule.ask:
        out["ask"] = False
    if rule.condition:
        out["condition"] = [[[test.as_plain() for test in tests] for tests in clause] for clause in rule.condition]
    if rule.limits:
        out["limits"] = [[limit.quantity, int(limit.above), limit.value] for limit in rule.limits]
    return out


def rule_from_plain(plain: Plain) -> Rule:
    values = dict(plain)
    values["condition"] = tuple(
        tuple(tuple(Claim.from_plain(test) for test in tests) for tests in clause)
        for clause in plain.get("condition", ())
    )
    values["limits"] = tuple(Limit(name, bool(above), value) for name, above, value in plain.get("limits", ()))
    for name in _TUPLES:
        if name in values:
            values[name] = tuple(values[name])
    for name in ("within", "not_within"):
        if name in values:
            values[name] = tuple((work, days) for work, days in values[name])
    return Rule(**values)


def book_as_plain(book: RuleBook) -> Plain:
    """The whole book as JSON-able data."""
    out: Plain = {name: getattr(book, name) for name in _BOOK}
    out["taxa"] = dict(book.taxa.own) if isinstance(book.taxa, Taxa) else dict(book.taxa)
    out["offered_works"] = list(book.offered_works)
    out["ids"] = [rule.id for rule in book.rules]
    out["rules"] = [rule_as_plain(rule) for rule in book.rules]
    out["faults"] = [fault.as_json() for fault in book.faults]
    return out


def book_from_plain(plain: Plain) -> RuleBook:
    """The book from what `book_as_plain` gave, as it comes back from JSON."""
    rows = plain["rules"]
    return RuleBook(
        rules=PlainRules(rows),
        taxa=Taxa(plain["taxa"]),
        faults=tuple(Fault(**fault) for fault in plain["faults"]),
        by_id={id: number for number, id in enumerate(plain["ids"])},
        offered_works=tuple(plain["offered_works"]),
        **{name: plain[name] for name in _BOOK},
    )


class PlainRules(Sequence[Rule]):
    """Rules as plain data, each made when it is first looked at: one statement touches a tenth of them."""

    def __init__(self, rows: Sequence[Plain]) -> None:
        self._rows = rows
        self._made: dict[int, Rule] = {}

    @overload
    def __getitem__(self, number: int) -> Rule: ...
    @overload
    def __getitem__(self, number: slice) -> Sequence[Rule]: ...
    def __getitem__(self, number: int | slice) -> Rule | Sequence[Rule]:
        if isinstance(number, slice):
            return [self[one] for one in range(*number.indices(len(self)))]
        if number < 0:
            number += len(self)
        if number not in self._made:
            self._made[number] = rule_from_plain(self._rows[number])
        return self._made[number]

    def __len__(self) -> int:
        return len(self._rows)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]


def works_offered(rules: Iterable[Rule]) -> tuple[str, ...]:
    """Works that some rule puts forward."""
    return tuple(sorted({work for rule in rules if rule.offers for work in rule.work}))


_BOOK = ("index", "works", "cautions", "questions", "sources", "budget", "places", "seasons")
_TUPLES = ("work", "part", "between", "follow", "cautions", "beats", "disputes")
_PLAIN = (
    "kind",
    "work",
    "part",
    "manner",
    "when",
    "within",
    "not_within",
    "between",
    "verdict",
    "weight",
    "offers",
    "first",
    "bring",
    "spot",
    "says",
    "amount",
    "opens",
    "closes",
    "follow",
    "cautions",
    "beats",
    "disputes",
    "mark",
    "source",
    "where",
    "yours",
    "file",
)
