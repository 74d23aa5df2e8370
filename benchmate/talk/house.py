"""Everything that a talk reads from: rules, words, the garden. Each part is opened when it is first wanted, once."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError, unless_broken
from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.word_patterns import Classes
from benchmate.rulebase import CompiledStore, RuleFolders, compiled, find_rules, fingerprint
from benchmate.talk.told.photographs import photographs, without_photographs
from benchmate.talk.trees.which_tree import names_of
from benchmate.telling.works import tell_works_by
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.garden import Garden
    from benchmate.hearing import Ear, Lexicon
    from benchmate.practice.book import RuleBook
    from benchmate.rulebase import RuleTables

HOME_GARDEN = "benchmate-garden"
MISSED = "missed.txt"
_TAIL = 60


class House:
    """folder: the garden's, or None where there is none. rules: the folder of `--rules`, or None."""

    def __init__(self, folder: Path | None, rules: Path | None = None) -> None:
        self.folder = folder
        self._rules = rules
        tell_works_by(lambda: self.told_works)

    @cached_property
    def rule_folders(self) -> RuleFolders:
        return find_rules(self._rules, self.folder)

    @cached_property
    def store(self) -> CompiledStore:
        return CompiledStore.beside(self.folder)

    @cached_property
    def _mark(self) -> str:
        """The name of what stands in the rule folders, looked for once: all of a talk goes by the same rules."""
        return fingerprint(self.rule_folders, self.store)

    @cached_property
    def tables(self) -> RuleTables:
        """All rule files, parsed: slow, so only where nothing compiled will do."""
        from benchmate.rulebase import read_tables

        return read_tables(self.rule_folders)

    @cached_property
    def lexicon(self) -> Lexicon:
        from benchmate.hearing.vocabulary.lexicon import Lexicon

        def build() -> Mapping[str, Any]:
            from benchmate.hearing.vocabulary.compiling import lexicon_data

            return lexicon_data(self.tables.tables)

        return unless_broken(
            lambda: Lexicon(self._compiled("lexicon", build), lambda: self.figure_words), lambda: self.tables.faults
        )

    @cached_property
    def figure_words(self) -> Mapping[str, Any]:
        """The words of figure questions: unpacked only where one may be asked."""
        from benchmate.hearing.figures.words import compiled_from

        return self._compiled("figure_words", lambda: compiled_from(self.tables.tables))

    @cached_property
    def book(self) -> RuleBook:
        from benchmate.practice.book import book_as_plain, book_from_plain

        def build() -> Mapping[str, Any]:
            from benchmate.practice.compile import compile_book

            whole: Mapping[str, Any] = plain(
                book_as_plain(compile_book(self.tables.tables, self.lexicon, self.tables.place_of))
            )
            return whole

        book: RuleBook = book_from_plain(self._compiled("book", build))
        return book

    @cached_property
    def figure_tables(self) -> Mapping[str, Any]:
        """Rows of rules/figures by kind, with the sources that they cite."""

        def build() -> Mapping[str, Any]:
            from benchmate.reckoning import gather

            rows = self.tables.tables.items()
            return gather(table for name, table in rows if name.startswith("figures/") or name == "sources.toml")

        return self._compiled("figures", build)

    @cached_property
    def glossary(self) -> Mapping[str, Any]:
        """Term -> its table of rules/words/glossary.toml."""
        table = self._compiled("glossary", lambda: dict(self.tables.tables.get("words/glossary.toml", {})))
        terms: Mapping[str, Any] = table.get("term", {})
        return terms

    @cached_property
    def answers(self) -> Mapping[str, Any]:
        """Questions of rules/answers with their answers, and the classes of words that they are asked by."""
        from benchmate.talk.asked.known_answers import compiled_from

        return self._compiled("answers", lambda: compiled_from(self.tables.tables))

    @cached_property
    def word_classes(self) -> Classes:
        """The classes of words by which first aid and those questions are told."""
        return Classes({**self.lexicon.sense["hurt"], **self.answers["class"]})

    @cached_property
    def told_works(self) -> Mapping[str, Any]:
        """Work -> how it is told, from rules/works: small, since a list of what is due needs nothing else of them."""

        def build() -> Mapping[str, Any]:
            from benchmate.practice.compile import works_told

            return works_told(self.tables.tables)

        return self._compiled("told", build)

    def _compiled(self, name: str, build: Any) -> dict[str, Any]:
        made = partial(unless_broken, build, lambda: self.tables.faults)
        return compiled(name, self.rule_folders, self.store, made, self._mark)

    @cached_property
    def garden(self) -> Garden | None:
        """The garden, or None where there is none. Raises UserError where its folder is not one."""
        if self.folder is None:
            return None
        from benchmate.garden import open_garden

        return open_garden(self.folder)

    @property
    def place(self) -> Place:
        return self.garden.place if self.garden else Place()

    def trees(self) -> Sequence[Tree]:
        return self.garden.trees() if self.garden else ()

    def entries(self, tree: Tree | None) -> Sequence[Entry]:
        return self.garden.entries(tree) if self.garden and tree else ()

    def lately_standing(self, tree: Tree | None) -> tuple[Entry, ...]:
        """The newest entries of the tree that still stand, in the order in which they were written."""
        if self.garden is None or tree is None:
            return ()
        written = self.garden.tail(tree, _TAIL)
        struck = {entry.strikes for entry in written if entry.strikes}
        return tuple(entry for entry in written if entry.kind != "struck" and entry.id not in struck)

    def with_work(self, trees: Sequence[Tree], works: Sequence[str]) -> list[Tree]:
        """Those of the trees on which one of the works was ever done, from the index: no journal is read for it."""
        if self.garden is None or not works:
            return list(trees)
        glances = self.garden.glances()
        return [tree for tree in trees if tree.folder in glances and set(works) & set(glances[tree.folder].last)]

    def due_on(self, tree: Tree, on: dt.date, days: int = 14, most: int = 3) -> list[str]:
        """The most urgent things due on one tree, as plain lines."""
        if self.garden is None:
            return []
        from benchmate.garden.agenda import DueTree, due_items
        from benchmate.telling.due import item_words, without_long_past

        groups, _ = without_long_past([DueTree(tree, due_items(self.garden.follow_ups(tree, on), on, days))])
        return [f"Due: {item_words(item, on)}." for group in groups for item in group.items[:most]]

    def next_tree(self, here: Tree | None) -> Tree | None:
        """The tree after this one, the first after the last; None in a garden without trees."""
        trees = list(self.trees())
        at = next((n for n, tree in enumerate(trees) if here and tree.folder == here.folder), -1)
        return trees[(at + 1) % len(trees)] if trees else None

    def begin_tree(self, name: str, said: Mapping[str, str], on: dt.date) -> Tree:
        """A new tree with what was said of it. Raises UserError where it cannot be made."""
        from benchmate.garden import new_tree

        if self.garden is None:
            raise UserError("no garden is open; name one with --garden")
        told: dict[str, Any] = {key: said[key] for key in ("phase", "health", "origin") if key in said}
        return new_tree(self.garden, name, said.get("species"), since=on, **told)

    @property
    def not_logged(self) -> type[Exception]:
        """What is raised where an entry could not be written."""
        from benchmate.garden import NotLogged

        return NotLogged

    @cached_property
    def length_units(self) -> tuple[str, ...]:
        """Words of the units that lie above zero."""
        units = self.lexicon.numbers.get("unit", {}).values()
        kept = [unit for unit in units if unit.get("kind") in ("length", "volume", "share", "ppm", "mass")]
        return tuple(word for unit in kept for word in unit["says"] if len(word) > 1 and word not in ("in", "ins"))

    def temperatures(self) -> tuple[Any, ...]:
        """Daily lows and highs from temperatures.csv in the garden's folder, where there is one; for degree-days.

        One day a line: its date, lowest and highest temperature in C, as `2026-05-01,4,15`. A first line may name the
        columns (date, min, max, in any order); lines that begin with # are passed over; commas, semicolons and tabs all
        part. Raises UserError with the line for what cannot be read.
        """
        path = self.folder / "temperatures.csv" if self.folder else None
        if path is None or not path.is_file():
            return ()
        from benchmate.reckoning import FigureError
        from benchmate.reckoning.heat import read_daily_temperatures

        try:
            return read_daily_temperatures(path.read_text(encoding="utf-8"))
        except (FigureError, UnicodeDecodeError) as error:
            raise UserError(f"{path}: {error}") from error

    def keep_missed(self, reading: Reading, on: dt.date) -> None:
        """Put a statement that was not wholly understood into GARDEN/.benchmate/missed.txt, for `benchmate words`.

        BENCHMATE_MISSED=off leaves it out. What cannot be written is nothing that belongs in the record.
        """
        if self.folder is None or os.environ.get("BENCHMATE_MISSED") == "off":
            return
        line = "\t".join([on.isoformat(), " | ".join(missed.words for missed in reading.missed), reading.said])
        with suppress(OSError):
            folder = self.folder / ".benchmate"
            folder.mkdir(exist_ok=True)
            with (folder / MISSED).open("a", encoding="utf-8") as file:
                file.write(" ".join(line.splitlines()) + "\n")

    @cached_property
    def ear(self) -> Ear:
        from benchmate.hearing import Ear, grammar_data

        return Ear(self.lexicon, self._compiled("grammar", grammar_data))

    def hear(self, words: str, on: dt.date, last: Reading | None = None) -> Reading:
        """The reading of one statement, with the garden's trees known by name and its first frost by date. last: what
        was said before it."""
        names, south, frost = names_of(self.trees()), self.place.southern, self.first_frost(on)
        if photographs(words):
            return replace(self.ear.hear(without_photographs(words), on, south, names, frost, last), said=words)
        return self.ear.hear(words, on, south, names, frost, last)

    def first_frost(self, on: dt.date) -> str | None:
        """The next mean first frost as an ISO date, or None where the place has none or has not told."""
        if self.place.first_frost is None:
            return None
        month, day = self.place.first_frost
        coming = [dt.date(year, month, min(day, 28)) for year in (on.year, on.year + 1)]
        return next(frost for frost in coming if frost >= on).isoformat()


def plain(value: Any) -> Any:
    """The value as JSON carries it: days as ISO text."""
    if isinstance(value, Mapping):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def garden_folder(asked: str | None, env: Mapping[str, str] | None = None) -> Path | None:
    """The garden's folder: the one asked for, BENCHMATE_GARDEN, the one we stand in, the one in the home folder; None
    where there is none. One that is asked for by name is given even if it is not there, so that this can be told."""
    env = os.environ if env is None else env
    named = asked or env.get("BENCHMATE_GARDEN")
    if named:
        return Path(named).expanduser()
    here = Path.cwd()
    if (here / "garden.toml").is_file():
        return here
    home = home_garden(env)
    return home if home and (home / "garden.toml").is_file() else None


def home_garden(env: Mapping[str, str] | None = None) -> Path | None:
    """Where a garden is made unless another place is named, or None where there is no home folder."""
    env = os.environ if env is None else env
    home = env.get("HOME") or env.get("USERPROFILE")
    return Path(home) / HOME_GARDEN if home else None
