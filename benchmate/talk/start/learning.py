"""Five minutes at the bench: a walk through the demo garden, done by talking."""

from __future__ import annotations

import datetime as dt
import sys
from argparse import Namespace
from collections.abc import Callable
from pathlib import Path

from benchmate.fault import UserError
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.talk.plain_loop import tell_answer
from benchmate.talk.screen import both_terminals, screen_of
from benchmate.telling.lines import ANSWER, ASIDE, OPTION, Line, escape
from benchmate.value import dataclass

DAY = dt.date(2026, 6, 14)


@dataclass(frozen=True, slots=True)
class Step:
    """What is learnt, and what may be said to try it."""

    learn: str
    say: str


STEPS = (
    Step("The garden tells what wants doing. What is late comes first.", "what's due?"),
    Step("Turn to a tree by its name.", "let's do Gatepost"),
    Step(
        "Say what you see, and ask. The answer stands first, then options with their reasons.",
        "two competing leaders, the left one is 9 mm, the right one is 8 mm, which should I keep?",
    ),
    Step("Every reason names its rule and what that rests on.", "why one"),
    Step("A work may be asked about by itself.", "can I shorten the shoots?"),
    Step("Suppose it were otherwise.", "what if it were weak?"),
    Step("Or ask when its time comes.", "when can I repot it?"),
    Step("What you did is logged as you say it, in one line.", "wired the left branch"),
    Step("A slip is mended by saying so.", "no, the right one"),
    Step("Or taken back. Nothing is wiped out: the record keeps both.", "scratch that"),
    Step("Ask for a reminder in your own words.", "remind me to check the wire in three weeks"),
    Step("The record answers, too.", "when did I last repot it?"),
    Step("Sums are worked out with their way and their limits.", "what wire for an 8 mm branch?"),
)


def learn(args: Namespace, ask: Callable[[str], str] = input) -> int:
    """Walk through the steps on a fresh copy of the demo garden. Enter says the step's words; Ctrl-D ends.

    Where nobody sits there the words are said by themselves.
    """
    import tempfile

    screen = screen_of(sys.stdout, plain=bool(getattr(args, "plain", False)))
    rules = getattr(args, "rules", None)
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(House(_fresh(Path(folder)), Path(rules) if rules else None), DAY)
        print(screen.lay([Line(f"{len(STEPS)} steps; Enter says the words in quotes, or say it your way.", ANSWER)]))
        for number, step in enumerate(STEPS, 1):
            print()
            head = Line(f"{step.learn}", OPTION, f"{number} of {len(STEPS)}  ")
            print(screen.lay([head, Line(f'Say: "{step.say}"', ASIDE)]))
            try:
                words = ask("> ").strip() if both_terminals() else ""
            except (EOFError, KeyboardInterrupt):
                print()
                return 0
            try:
                print(tell_answer(bench.answer(words or step.say), screen))
            except UserError as error:
                print(escape(str(error)))
        print()
        print(screen.lay([Line("That is all it takes. Open your own garden with: benchmate", ANSWER)]))
    return 0


def _fresh(folder: Path) -> Path:
    import shutil

    from benchmate.talk.commands.settings import demo_folder

    home = folder / "demo"
    shutil.copytree(demo_folder(), home, ignore=shutil.ignore_patterns(".benchmate"))
    for path in home.rglob("*"):
        path.chmod(0o700 if path.is_dir() else 0o600)
    return home
