"""The talk opened: which garden, which screen, and the loop that reads statements from it."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Callable, Iterator
from pathlib import Path

from benchmate.talk.bench import Bench
from benchmate.talk.commands.settings import house_of
from benchmate.talk.complete import Phrases, phrases_of
from benchmate.talk.dates import today_of
from benchmate.talk.house import House, garden_folder
from benchmate.talk.plain_loop import converse, piped_lines, typed_lines
from benchmate.talk.screen import Screen, both_terminals, screen_of
from benchmate.talk.unread import unread_words
from benchmate.telling.answer import Answer

_CARE = (
    "Advice here is from general practice. Safety comes first; labels and local rules prevail. Where people or a tree "
    "that matters are at risk, ask a qualified arborist."
)


def open_talk(args: Namespace) -> int:
    """The talk at the bench. Gives the exit status."""
    on = getattr(args, "on", None)
    day = today_of(on) if on is not None else None
    plain = bool(getattr(args, "plain", False))
    screen = screen_of(sys.stdout, plain=plain)
    house = _house(args, screen)
    bench = Bench(house, day, tree=getattr(args, "tree", None), dry=getattr(args, "dry", False), plain=plain)
    ask: Callable[[str], Answer] = bench.answer
    if getattr(args, "listen", False):
        from benchmate.talk.aloud.by_voice import spoken_statements

        spoken, ask = spoken_statements(bench)
        return converse(_said_aloud(args, ask), spoken, screen, attended=True)
    ask = _said_aloud(args, ask)
    if not both_terminals():
        return converse(ask, piped_lines(), screen)
    print(greeting(bench, screen))
    return talk_at_terminal(bench, screen, ask)


def _said_aloud(args: Namespace, ask: Callable[[str], Answer]) -> Callable[[str], Answer]:
    if not getattr(args, "speak", False):
        return ask
    from benchmate.talk.aloud.by_voice import aloud

    return aloud(ask)


def talk_at_terminal(bench: Bench, screen: Screen, ask: Callable[[str], Answer] | None = None) -> int:
    """Statement after statement from a terminal, until it ends."""
    if screen.plain or os.environ.get("TERM") == "dumb":
        lines = typed_lines(lambda: _plain_prompt(bench))
    else:
        lines = _prompted(bench)
    converse(ask or bench.answer, lines, lambda: screen_of(sys.stdout, plain=screen.plain), attended=True)
    return 0


def _house(args: Namespace, screen: Screen) -> House:
    """The house; where there is no garden yet and somebody sits there, one is made."""
    asked = getattr(args, "garden", None)
    demo = getattr(args, "demo", False)
    folder = None if demo else garden_folder(asked)
    missing = not demo and (folder is None or not folder.exists() or (folder.is_dir() and not any(folder.iterdir())))
    if missing and both_terminals():
        from benchmate.talk.start.first_start import begin

        made = begin(folder, screen)
        rules = getattr(args, "rules", None)
        return House(made, Path(rules).expanduser() if rules else None)
    return house_of(args)


def greeting(bench: Bench, screen: Screen) -> str:
    """What stands above the first statement: the garden, what is due, how to ask for help, the usual cautions."""
    from benchmate.telling.lines import ANSWER, ASIDE, Line
    from benchmate.telling.wording import list_words, sentence

    trees = bench.house.trees()
    place = bench.house.place.name or (str(bench.house.folder) if bench.house.folder else "no garden")
    names = list_words([tree.name for tree in trees[:12]]) + (f" and {len(trees) - 12} more" if len(trees) > 12 else "")
    lines = [Line(f"At the bench: {place}.", ANSWER)]
    if trees:
        lines.append(Line(f"Trees: {names}.", ASIDE))
    if bench.house.garden and trees:
        from benchmate.garden import due
        from benchmate.telling.due import headline, without_long_past

        lines.append(Line(sentence(headline(without_long_past(due(bench.house.garden, bench.on, 7))[0], 7)), ASIDE))
    lines += [Line(sentence(words), ASIDE) for words in unread_words(bench.house.garden, bench.unread)]
    lines.append(Line('Say what you see, do or ask; "what can I say" tells more; "goodbye" ends.', ASIDE))
    lines.append(Line(_CARE, ASIDE))
    return screen.lay(lines)


def _plain_prompt(bench: Bench) -> str:
    name = bench.context.tree
    return f"{name}> " if name else "> "


def _prompted(bench: Bench) -> Iterator[str]:
    from benchmate.talk.prompt import history_of, prompted_lines
    from benchmate.talk.status import status_words
    from benchmate.telling.options import option_words

    folder = bench.house.folder
    history = history_of(folder / ".benchmate" if folder else None)

    def offered() -> int:
        advice = bench.context.advice
        return len(advice.options) if advice else 0

    def picking(number: int) -> str:
        advice = bench.context.advice
        if advice is None:
            return ""
        return f"Enter logs: {option_words(advice.options[number - 1], bench.house.place.units)}"

    told: dict[str, object] = {}

    def status(width: int) -> str:
        # drawn anew at every key, and worked out only when the talk has moved on or the screen changed
        now = (id(bench.context), bench.on, bench.dry, width)
        if told.get("of") != now:
            told["of"], told["words"] = now, status_words(bench, width)
        return str(told["words"])

    yield from prompted_lines(history, Vocabulary(bench).phrases, status, offered, picking)


class Vocabulary:
    """What may be completed: the garden's trees, and the lexicon's species, works, parts and findings."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._trees: tuple[str, ...] = ()
        self._phrases: Phrases | None = None

    def phrases(self) -> Phrases:
        """The phrases; gathered anew where a tree came or went."""
        trees = tuple(tree.name for tree in self._bench.house.trees())
        if self._phrases is None or trees != self._trees:
            self._trees = trees
            self._phrases = self._gather(trees)
        return self._phrases

    def _gather(self, trees: tuple[str, ...]) -> Phrases:
        from benchmate.talk.spoken import SPOKEN

        lexicon = self._bench.house.lexicon
        of = {kind: lexicon.phrases(*types) for kind, types in _TYPES.items()}
        talk = [*(one.says for one in SPOKEN), *(words for words, _, _ in of["talk"])]
        return phrases_of(
            trees,
            [words for words, _, _ in of["species"]],
            [words for words, _, _ in of["work"]],
            talk,
            [words for words, _, _ in of["word"]],
        )


_TYPES = {
    "species": ("SPECIES",),
    "work": ("V", "VED", "VING", "EVENT"),
    "talk": ("STRIKE", "REMIND", "NEW", "FAREWELL", "QDUE", "QPLAN", "QLIST", "QADVICE"),
    "word": ("PART", "FINDING", "STATE", "FLUSH", "QFIGURE"),
}
