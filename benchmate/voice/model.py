"""The model of what is said at this bench: a language model and a dictionary, made from the rules, kept in a folder.

Both follow from the rule files, the grammar and the names of the trees alone, so their names carry a digest of those;
one that is there under its name is used as it is, any other is made again.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections import Counter
from collections.abc import Sequence, Set
from dataclasses import dataclass
from pathlib import Path

from benchmate.hearing import Ear

from .core import Core
from .filler import Filler
from .ngram import mixed_arpa
from .sentences import sample_sentences, vary_statements
from .shapes import Tables, example_statements, learn_shapes, statements_as_said
from .sounds import Sounds, read_dictionary
from .varied import Variation

FEWEST = 5  # times that a word is in the sentences; rarer ones are mostly forms that nobody says, and steal from others
SENTENCES = 200_000  # a quarter of it makes a statement that nobody foresaw a tenth less likely
VARIED = 0.5  # statements varied, for each sentence that is sampled
# Of what is expected, how much goes by sentences that are sampled, by statements varied, and by statements as said.
SHARES = (0.45, 0.3, 0.25)
TABLE = "words/sounds.toml"
Words = Sequence[str]
_FORM = "7"  # raise when the code that makes the model changes what it makes


@dataclass(frozen=True, slots=True)
class VoiceModel:
    """language: ARPA file. dictionary: words with their phones, a line each way. taught: folder of a speaker's own
    voice, if one is kept."""

    language: Path
    dictionary: Path
    taught: Path | None = None


def voice_model(
    tables: Tables, ear: Ear, names: Sequence[str], folder: Path, base: Path, species: Sequence[str] = ()
) -> VoiceModel:
    """The model for these rules, and for tree names and species of the garden; made where it is not in the folder yet,
    which takes some seconds.

    base: the recogniser's own dictionary. Raises OSError where the folder cannot be written.
    """
    digest = hashlib.sha256(
        json.dumps([_FORM, tables, sorted(names), sorted(set(species))], sort_keys=True, default=str).encode()
    ).hexdigest()[:16]
    model = VoiceModel(folder / f"voice-{digest}.arpa", folder / f"voice-{digest}.dict")
    if not (model.language.is_file() and model.dictionary.is_file()):
        folder.mkdir(parents=True, exist_ok=True)
        language, words = language_model(tables, ear, names, species=species)
        _write(model.dictionary, dictionary_text(words, Sounds(tables.get(TABLE, {}), read_dictionary(base))))
        _write(model.language, language)
    return model


def language_model(
    tables: Tables, ear: Ear, names: Sequence[str] = (), count: int = SENTENCES, species: Sequence[str] = ()
) -> tuple[str, list[str]]:
    """(ARPA text, its words) for the rules, the trees' names and their species."""
    table = tables.get(TABLE, {})
    shapes = learn_shapes(example_statements(tables), ear, table.get("said", {}))
    filler = Filler(ear, shapes, names, species)
    core, wide = (Core(table[name], tables, ear.lexicon) for name in ("core", "wide"))
    drawn = list(sample_sentences(shapes, core, wide, filler, ear, count, wake_words(tables)))
    said = list(statements_as_said(tables))
    variation = Variation(ear.lexicon, filler, **table.get("alike", {}))
    varied = list(vary_statements(said, variation, round(count * VARIED)))
    always = _words_of_trees(tables, names, ear) | {word for words in said for word in words}
    parts = list(zip(SHARES, _of_usual_words((drawn, varied, said), always), strict=True))
    return mixed_arpa(parts), sorted({word for _, part in parts for sentence in part for word in sentence})


def _of_usual_words(parts: Sequence[Sequence[Words]], always: Set[str]) -> list[list[Words]]:
    """The parts without sentences that hold a rare word, unless it is one that is heard always."""
    times = Counter(word for part in parts for sentence in part for word in sentence)
    rare = {word for word, count in times.items() if count < FEWEST} - always
    return [[sentence for sentence in part if rare.isdisjoint(sentence)] for part in parts]


def _words_of_trees(tables: Tables, names: Sequence[str], ear: Ear) -> set[str]:
    """The words of the species' names and of the trees' own: rare as they are, a grower may have that tree."""
    species = (name for path, table in tables.items() if path.startswith("species/") for name in table.get("names", ()))
    return {word for name in (*species, *names) for word in ear.lexicon.split(name.lower())}


def wake_words(tables: Tables) -> list[str]:
    """What is said first where the microphone stays open."""
    return list(tables.get(TABLE, {}).get("wake", {}).get("says", ()))


def dictionary_text(words: Sequence[str], sounds: Sounds) -> str:
    """The dictionary as the recogniser reads it: the first way under the word, others under word(2), word(3), ..."""
    lines = []
    for word in words:
        for number, phones in enumerate(sounds.of(word), 1):
            lines.append(f"{word if number == 1 else f'{word}({number})'} {phones}")
    return "\n".join(lines) + "\n"


def _write(path: Path, text: str) -> None:
    """Whole or not at all: a model that was cut short must not be taken for one."""
    handle, name = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(text)
    os.replace(name, path)
