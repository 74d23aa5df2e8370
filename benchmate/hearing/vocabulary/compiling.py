"""Compiling the lexicon from rules/words, rules/works and rules/species into plain data. Pure; no file is read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from ..asked.kind_asked import kind_patterns
from ..figures.words import compiled_from
from .lexicon import CHOICE, END, Lexicon, Trie, walk
from .spelling import count_spellings, spellings
from .words import plural, split_words, verb_forms

Tables = Mapping[str, Mapping[str, Any]]
NAMES = 0.6  # what the name of a work costs where the same word says that it is being done
YIELDS = 0.15  # what the verb form costs where the same word is a state
MOST_SPELT = 24  # a phrase with more spellings than this keeps its choices instead of being spelt out

# Token types whose words have a plural.
_COUNTED = {"PART", "FINDING", "FLUSH", "EVENT", "ONE", "TREEWORD", "MEANS", "SPECIES"}
# Word files that are lists of TYPE -> value -> phrases.
TERM_FILES = ("words/little.toml", "words/places.toml", "words/findings.toml", "words/talk.toml")
# tables of rules/words/parts.toml that are kept as they stand
_OF_PARTS = (
    *("names", "counted", "amount", "seen", "harmless", "harmed", "measured", "pronoun"),
    *("off_each", "length_off", "spoken_many", "manner", "way", "pair", "told_by", "kind_of", "nowhere"),
)


def build_lexicon(tables: Tables) -> Lexicon:
    """Compile parsed TOML tables (by path relative to the rules folder) into a lexicon. Pure; no file is read.

    A file that is missing leaves its words out; nothing is raised, so that a damaged rule base still hears something.
    """
    return Lexicon(lexicon_data(tables), lambda: compiled_from(tables))


def lexicon_data(tables: Tables) -> dict[str, Any]:
    """The plain-data form of the lexicon."""
    builder = _Builder(tables)
    builder.add_terms()
    builder.add_states()
    builder.add_figures()
    builder.add_works()
    builder.add_species()
    return builder.data()


class _Builder:
    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        contractions = tables.get("words/contractions.toml", {})
        self.short = dict(contractions.get("short", {}))
        self.bare = dict(contractions.get("bare", {}))
        self.trie: Trie = {}
        self.known: set[str] = set()
        self.choices: dict[str, Trie] = {}
        self.choice_keys: dict[str, str] = {}
        self.patterns: dict[str, str] = {}
        self.works: dict[str, Any] = {}
        self.irregular = tables.get("words/verbs.toml", {}).get("forms", {})
        self.bends_first = set(tables.get("words/verbs.toml", {}).get("first", {}).get("says", []))

    def split(self, phrase: str) -> list[str]:
        return [word.text for word in split_words(phrase, self.short, self.bare)]

    def add(self, phrase: str, kind: str, value: Any) -> None:
        if phrase.count("[") and count_spellings(phrase) > MOST_SPELT:
            self._add_template(phrase, [kind, value])
            return
        for spelt in spellings(phrase):
            self._add_one(spelt, kind, value)

    def _add_template(self, phrase: str, term: Any) -> None:
        """Keep a phrase with many choices as it is: each "[a/b]" is one step, into a small trie of its own."""
        steps: list[str] = []
        for piece in re.findall(r"\[[^\]]*\]|[^\[]+", phrase):
            steps += [self._choice(piece[1:-1])] if piece.startswith("[") else self.split(piece)
        _insert(self.trie, steps, term)
        self.known.update(step for step in steps if not step.startswith(CHOICE))

    def _choice(self, text: str) -> str:
        """The key of a set of choices. The same choices written again share it."""
        key = self.choice_keys.setdefault(text, f"{CHOICE}{len(self.choice_keys)}")
        trie: Trie = {}
        for choice in text.split("/"):
            words = self.split(choice)
            self.known.update(words)
            _insert(trie, words, True)
        self.choices[key] = trie
        return key

    def _add_one(self, phrase: str, kind: str, value: Any) -> None:
        words = self.split(phrase)
        forms = [words]
        if kind in _COUNTED and words and words[-1].isalpha():
            forms.append([*words[:-1], plural(words[-1])])
        for form in forms:
            _insert(self.trie, form, [kind, value])
            self.known.update(form)

    def add_terms(self) -> None:
        for path in TERM_FILES:
            for kind, values in self.tables.get(path, {}).items():
                for value, phrases in values.items():
                    for phrase in phrases:
                        self.add(phrase, kind, value)
        for trait, values in self.tables.get("words/traits.toml", {}).get("trait", {}).items():
            for value, cell in values.items():
                for phrase in cell.get("says", []):
                    self.add(phrase, "STATE", f"=trait:{trait}:{value}")
        for group, cell in self.tables.get("species/groups.toml", {}).get("group", {}).items():
            for phrase in cell.get("says", []):
                self.add(phrase, "SPECIES", f"group:{group}")

    def add_states(self) -> None:
        for name, state in self.tables.get("words/states.toml", {}).get("state", {}).items():
            for phrase in state["says"]:
                self.add(phrase, "STATE", name)

    def add_figures(self) -> None:
        for figure, cell in self.tables.get("words/figures.toml", {}).get("figure", {}).items():
            for phrase in cell["asks"]:
                self.add(phrase, "QFIGURE", figure)

    def add_species(self) -> None:
        taxa = [table for path, table in self.tables.items() if path.startswith("species/") and "taxon" in table]
        for table in taxa:
            for name in table.get("names", []):
                self.add(name, "SPECIES", table["taxon"])
        given = {name.lower() for table in taxa for name in table.get("names", [])}
        for table in taxa:  # a genus whose bare name means one species in the trade ("liquidambar") leaves it to that
            if table["taxon"].lower() not in given:
                self.add(table["taxon"], "SPECIES", table["taxon"])

    def add_works(self) -> None:
        verbs: set[str] = set()
        for path, table in self.tables.items():
            if not path.startswith("works/"):
                continue
            for work, cell in table.get("work", {}).items():
                self.works[work] = {key: value for key, value in cell.items() if key not in ("says", "nouns")}
                for noun in cell.get("nouns", []):
                    self.add(noun, "EVENT", work)
                for pattern in cell["says"]:
                    verbs.add(self._add_pattern(work, pattern))
        given = self.tables.get("words/verbs.toml", {})
        verbs.update(
            given.get("light", {}).get("says", []), given.get("harm", {}), given.get("untouched", {}).get("says", [])
        )
        for verb in sorted(verbs):
            self._add_verb(verb)

    def _add_pattern(self, work: str, pattern: str) -> str:
        """Keep a pattern under every key that may be looked up; the verb of the pattern."""
        for key in pattern_keys(pattern):
            self.patterns.setdefault(key, work)
        return pattern.partition(":")[0].split()[0]

    def _add_verb(self, verb: str) -> None:
        words = verb.split("-")
        at = 0 if verb in self.bends_first else len(words) - 1
        past, ing = verb_forms(words[at], self.irregular)
        third = self.tables.get("words/verbs.toml", {}).get("third", {}).get(verb, [])
        for kind, forms in (("V", [words[at]]), ("VED", past), ("VING", [ing]), ("VNOW", third)):
            for form in forms:
                self.add(" ".join([*words[:at], form, *words[at + 1 :]]), kind, verb)

    def _circumstances(self, sense: Mapping[str, Any]) -> list[str]:
        """What is seen of a tree and no finding names: states that mean one, and the words that are one."""
        states = self.tables.get("words/states.toml", {}).get("state", {}).values()
        meant = [str(cell.get(key)) for cell in states for key in ("alone", "on")]
        told = (meaning.removeprefix("means:") for meaning in meant if meaning.startswith("means:"))
        return sorted({*told, *sense["circumstances"]})  # without it the words are not whole, and nothing can be heard

    def _rare(self, given: Mapping[str, float]) -> dict[str, float]:
        """What the senses of a word cost more. A verb form that is also a state ("breaking") yields to the state."""
        rare = dict(given)
        terms = list(walk(self.trie, ()))
        events = {words for words, kind, _ in terms if kind == "EVENT"}
        for words, kind, _ in terms:
            if kind == "STATE" and len(words) == 1:
                for form in ("VED", "VING"):
                    rare.setdefault(f"{words[0]} {form}", YIELDS)
            if kind == "VING" and words in events:  # "leaf cutting at the top" tells what is being done
                rare.setdefault(f"{' '.join(words)} EVENT", NAMES)
        return rare

    def _glossary(self) -> set[str]:
        terms = self.tables.get("words/glossary.toml", {}).get("term", {})
        names = [name for key, cell in terms.items() for name in (key.replace("-", " "), *cell.get("names", []))]
        return {" ".join(self.split(name)) for name in names}

    def data(self) -> dict[str, Any]:
        words = self.tables.get("words/filler.toml", {})
        filler: Trie = {}
        for phrase in (spelt for written in words.get("filler", []) for spelt in spellings(written)):
            _insert(filler, self.split(phrase), True)
        parts = self.tables.get("words/parts.toml", {})
        dates = self.tables.get("words/dates.toml", {})
        numbers = self.tables.get("words/numbers.toml", {})
        value_words = {w for phrase in _value_phrases(numbers, dates) for w in self.split(phrase)}
        filler_words = {w for phrase in words.get("filler", []) for w in self.split(phrase)}
        known = self.known | value_words | filler_words
        return {
            "trie": self.trie,
            "choices": self.choices,
            "known": sorted(known),
            "plain": sorted(set(self.tables.get("words/plain.toml", {}).get("plain", [])) - self.known),
            "filler": filler,
            "little": sorted(words.get("little", [])),
            "heard": dict(self.tables.get("words/mishearings.toml", {}).get("heard", {})),
            "short": self.short,
            "bare": self.bare,
            "states": {
                n: {k: v for k, v in s.items() if k != "says"}
                for n, s in self.tables.get("words/states.toml", {}).get("state", {}).items()
            },
            "circumstances": self._circumstances(words.get("sense", {})),
            **{name: dict(parts.get(name, {})) for name in _OF_PARTS},
            "works": self.works,
            "patterns": self.patterns,
            "numbers": numbers,
            "dates": dates,
            "figures": {
                f: {k: v for k, v in c.items() if k != "asks"}
                for f, c in self.tables.get("words/figures.toml", {}).get("figure", {}).items()
            },
            "asking": {
                key: self.tables.get("words/figures.toml", {}).get("asking", {}).get(key, [])
                for key in (
                    "words",
                    "inverted",
                    "subjects",
                    "joining",
                    "tellers",
                    "ordering",
                    "objects",
                    "finite",
                    "parts",
                    "named",
                    "headings",
                )
            },
            "rare": self._rare(words.get("rare", {})),
            "sense": words.get("sense", {}),
            "several": words.get("several", {}),
            "kinds": kind_patterns(self.tables.get("words/kind_questions.toml", {})),
            "glossary": sorted(self._glossary()),
            "harm": dict(self.tables.get("words/verbs.toml", {}).get("harm", {})),
            "light": list(self.tables.get("words/verbs.toml", {}).get("light", {}).get("says", [])),
            "untouched": list(self.tables.get("words/verbs.toml", {}).get("untouched", {}).get("says", [])),
            "ends": dict(self.tables.get("words/verbs.toml", {}).get("ends", {})),
            "untended": dict(self.tables.get("words/verbs.toml", {}).get("untended", {})),
            "halving": dict(self.tables.get("words/verbs.toml", {}).get("halving", {})),
            "third": list(self.tables.get("words/verbs.toml", {}).get("third", {})),
            "with_thing": list(self.tables.get("words/verbs.toml", {}).get("thing", {}).get("says", [])),
            "same_past": sorted(verb for verb, forms in self.irregular.items() if forms[0] == verb),
        }


def _value_phrases(numbers: Mapping[str, Any], dates: Mapping[str, Any]) -> Iterable[str]:
    for key in ("number", "ordinal", "share", "fraction", "part", "times"):
        yield from numbers.get(key, {})
    yield from numbers.get("likened", {}).get("mm", {})
    for unit in numbers.get("unit", {}).values():
        for word in unit["says"]:
            yield word
            yield word + "s"
    for key in ("dimension", "headed", "joined", "named"):
        for phrases in numbers.get(key, {}).values():
            yield from phrases
    for table in (table for key, table in dates.items() if key != "words"):
        yield from table
    for phrases in dates.get("words", {}).values():
        yield from phrases


def pattern_keys(pattern: str) -> list[str]:
    """The keys under which "verb particle: part, part +share" is looked up.

    >>> pattern_keys("take off: wire, guy")
    ['take|off|wire|', 'take|off|guy|']
    """
    head, _, parts = pattern.partition(":")
    share = "share" if "+share" in parts or "+some" in parts else ""
    verb, *particles = head.split()
    named = [part.strip() for part in parts.replace("+share", "").replace("+some", "").split(",")]
    return [f"{verb}|{particle}|{part}|{share}" for part in named for particle in particles or [""]]


def _insert(trie: Trie, words: list[str], term: Any) -> None:
    node = trie
    for word in words:
        node = node.setdefault(word, {})
    terms = node.setdefault(END, [])
    if term not in terms:
        terms.append(term)
