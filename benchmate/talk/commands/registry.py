"""The commands: one table that feeds `--help`, the reference in the documents and the tests.

A command names the module that runs it and the room that it needs; both are imported when it runs. A command whose room
is not installed is not offered.
"""

from __future__ import annotations

from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Argument:
    """One argument. flags: names as typed ("--on",) or ("text",). shape: what argparse takes beside help.

    unsaid: it has no default, so that what was said before the command is kept.
    """

    flags: tuple[str, ...]
    help: str
    shape: tuple[tuple[str, object], ...] = ()
    unsaid: bool = False

    @property
    def options(self) -> dict[str, object]:
        return dict(self.shape)


@dataclass(frozen=True, slots=True)
class Command:
    """name: as typed. does: one line. example: a command line that works on the demo garden. run: "module:function".
    needs: modules that must be there. arguments: its own, beside those that all take. json: whether it prints data."""

    name: str
    does: str
    example: str
    run: str
    needs: tuple[str, ...] = ()
    arguments: tuple[Argument, ...] = ()
    json: bool = True
    children: tuple[Command, ...] = ()


def _arg(*flags: str, help: str, unsaid: bool = False, **shape: object) -> Argument:
    return Argument(flags, help, tuple(shape.items()), unsaid)


TREE = _arg("tree", help="the tree's name")
SPEAK = "benchmate.talk.commands.speaking"
KEEP = "benchmate.talk.commands.keeping"
TRADE = "benchmate.talk.commands.trading"
RULES = "benchmate.talk.commands.ruling"

# What every command takes, before it or after it.
COMMON = (
    _arg("--garden", help="the garden's folder (else BENCHMATE_GARDEN)", metavar="DIR", unsaid=True),
    _arg("--rules", help="a folder of rules in place of those that came with it", metavar="DIR", unsaid=True),
    _arg("--on", help="take this day as today, as 2026-06-14", metavar="DATE", unsaid=True),
    _arg("--demo", help="use a copy of the demo garden, which may be written to", action="store_true", unsaid=True),
    _arg("--plain", help="lines only, words for signs: for a screen reader", action="store_true", unsaid=True),
)
AS_JSON = _arg("--json", help="print JSON and nothing else", action="store_true", unsaid=True)
# What the talk takes, and `say`.
TALK = (
    _arg("--tree", help="the tree that is meant, or at hand when the talk opens", metavar="NAME", unsaid=True),
    _arg("--dry", help="log nothing, show what would be logged", action="store_true", unsaid=True),
)

# What the talk alone takes.
ALOUD = (
    _arg("--listen", help="hear what is spoken; Enter begins and ends a statement (voice extra)", action="store_true"),
    _arg("--speak", help="say answers aloud with espeak-ng", action="store_true"),
)

COMMANDS: tuple[Command, ...] = (
    Command(
        "say",
        "one statement, one answer; logs what was decided",
        'benchmate say "the first flush has hardened, can I halve the leaves?" --tree Ratchet --on 2026-06-14 --demo',
        f"{SPEAK}:say",
        ("benchmate.hearing", "benchmate.practice"),
        (
            _arg("text", help="the statement; - reads statements from standard input, one a line"),
            *TALK,
        ),
    ),
    Command(
        "hear",
        "the reading alone; touches nothing",
        'benchmate hear "hornbeam, second flush, two competing leaders" --on 2026-06-14',
        f"{SPEAK}:hear_command",
        ("benchmate.hearing",),
        (
            _arg("text", help="the statement; - reads standard input", nargs="?"),
            _arg("--file", help="a file with one statement a line: one reading a line comes out", metavar="F"),
            _arg("--wav", help="a wave file with one spoken statement (voice extra)", metavar="F"),
        ),
    ),
    Command(
        "due",
        "what needs doing, over the whole garden",
        "benchmate due --days 30 --on 2026-06-14 --demo",
        f"{KEEP}:due_command",
        ("benchmate.garden.store",),
        (
            _arg("--days", help="how far ahead to look (14)", type=int, default=14, metavar="N"),
            _arg("--all", help="also what rules asked for more than 120 days ago", action="store_true"),
        ),
    ),
    Command(
        "record",
        "the tree's history, by season",
        "benchmate record Ratchet --oldest --demo",
        f"{KEEP}:record_command",
        ("benchmate.garden.store",),
        (
            TREE,
            _arg("--oldest", help="oldest first", action="store_true"),
            _arg("--work", help="only entries with this work", metavar="WORK"),
            _arg("--kind", help="only entries of this kind", choices=("seen", "done", "plan", "left", "note")),
            _arg("--from", help="from this day, month or year", metavar="WHEN", dest="start"),
            _arg("--to", help="to this day, month or year", metavar="WHEN", dest="end"),
        ),
    ),
    Command(
        "rename",
        "another name for a tree; the record keeps the old one, which still finds it",
        'benchmate rename Sprint "Copper" --on 2026-06-14 --demo',
        f"{KEEP}:rename_command",
        ("benchmate.garden.store",),
        (TREE, _arg("name", help="the new name")),
    ),
    Command(
        "plan",
        "work laid out over coming seasons, and why each stands where it stands",
        "benchmate plan Ratchet --years 2 --on 2026-06-14 --demo",
        "benchmate.talk.commands.planning:plan_command",
        ("benchmate.planning.lay", "benchmate.practice"),
        (TREE, _arg("--years", help="how many, 1 to 10 (3)", type=int, default=3, metavar="N")),
    ),
    Command(
        "calendar",
        "what is due as iCalendar (RFC 5545)",
        "benchmate calendar --on 2026-06-14 --demo",
        f"{KEEP}:calendar_command",
        ("benchmate.telling.calendar",),
        (_arg("--out", help="the file to write (else standard output)", metavar="F"),),
        json=False,
    ),
    Command(
        "export",
        "every entry as JSON Lines or CSV, for other programs",
        "benchmate export Ratchet --as csv --demo",
        f"{TRADE}:export_command",
        ("benchmate.garden.exchange",),
        (
            _arg("tree", help="only this tree's", nargs="?"),
            _arg("--as", help="csv or jsonl (else by the file's name)", choices=("csv", "jsonl"), dest="form"),
            _arg("--out", help="the file to write (else standard output)", metavar="F"),
        ),
        json=False,
    ),
    Command(
        "import",
        "entries from a file: an export, or any CSV with its columns told",
        'benchmate import notes.csv --map "day is Date, said is Notes, tree is Plant" --dry --demo',
        f"{TRADE}:import_command",
        ("benchmate.garden.exchange",),
        (
            _arg("file", help="the file, here or in the garden's folder; - reads standard input"),
            _arg("--map", help='what the columns of a CSV mean, as "day is Date, said is Notes"', metavar="WORDS"),
            _arg("--new-trees", help="make trees that the garden lacks", action="store_true"),
            _arg("--dry", help="take nothing in, tell what would be", action="store_true"),
        ),
        json=False,
    ),
    Command(
        "sheet",
        "the tree on one page, to print or to carry on a phone",
        "benchmate sheet Ratchet --out - --on 2026-06-14 --demo",
        "benchmate.talk.commands.sheeting:sheet_command",
        ("benchmate.garden.store", "benchmate.practice"),
        (
            TREE,
            _arg("--out", help="the file to write (sheet.html beside the tree's journal); - prints it", metavar="F"),
            _arg("--text", help="print it as lines with small charts instead", action="store_true"),
        ),
        json=False,
    ),
    Command(
        "rules",
        "the rule base: check, show, list, cover",
        "benchmate rules list --work repot",
        f"{RULES}:rules_command",
        ("benchmate.practice.book",),
        children=(
            Command(
                "check",
                "faults of the rule files, and how many rules there are",
                "benchmate rules check",
                f"{RULES}:check_command",
            ),
            Command(
                "show",
                "one rule, with its source",
                "benchmate rules show leaf-cut-needs-strength",
                f"{RULES}:show_command",
                arguments=(_arg("id", help="the rule's id"),),
            ),
            Command(
                "list",
                "all rules, a line each",
                "benchmate rules list --work repot",
                f"{RULES}:list_command",
                arguments=(_arg("--work", help="only rules on this work", metavar="WORK"),),
            ),
            Command(
                "cover",
                "taxa by work: what is known, by rule or by default, and what is not",
                "benchmate rules cover --work leaf-cut",
                f"{RULES}:cover_command",
                arguments=(_arg("--work", help="only this work", metavar="WORK"),),
            ),
        ),
    ),
    Command(
        "check",
        "the garden's files: what is wrong and where",
        "benchmate check --demo",
        f"{KEEP}:check_command",
        ("benchmate.garden.check",),
    ),
    Command(
        "words",
        "words that were not taken in, and the line of TOML that would teach each",
        "benchmate words --demo",
        f"{SPEAK}:words_command",
        ("benchmate.garden.store",),
    ),
    Command(
        "learn",
        "five minutes at the bench with the demo garden",
        "benchmate learn",
        f"{SPEAK}:learn_command",
        ("benchmate.hearing", "benchmate.practice"),
        json=False,
    ),
    Command(
        "voice",
        "read lines aloud once, so that your own voice is heard better (voice extra)",
        "benchmate voice --forget --demo",
        f"{SPEAK}:voice_command",
        ("benchmate.voice.own",),
        (
            _arg("--wav", help="recordings of the lines, in any order", nargs="+", metavar="F"),
            _arg("--forget", help="forget the voice that was learnt", action="store_true"),
        ),
        json=False,
    ),
)
