"""Words mistyped or misheard by a letter or two: what they may have been."""

from __future__ import annotations

from .lexicon import Lexicon

TRIED = 3


class Slips:
    """The near words of a lexicon. Keeps what it has found, so it is made once a talk."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._lexicon = lexicon
        self._found: dict[str, list[tuple[str, int]]] = {}

    def __call__(self, word: str) -> list[tuple[str, int]]:
        """(known word, edits) for a word that the lexicon does not know; none for short or ordinary words.

        Up to four letters must be exact, five to seven may have one slip, eight and more two: of English words with
        four letters a quarter lie within one edit of some term, of those with five a twelfth.
        """
        if word not in self._found:
            edits = 0 if len(word) < 5 else 1 if len(word) < 8 else 2
            strange = word.isalpha() and word not in self._lexicon.known and word not in self._lexicon.plain
            self._found[word] = self._near(word, edits) if edits and strange else []
        return self._found[word]

    def _near(self, word: str, edits: int) -> list[tuple[str, int]]:
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        near = process.extract(word, self._lexicon.fuzzy_words, scorer=OSA.distance, score_cutoff=edits, limit=8)
        ranked = sorted(
            (int(score), not _letters_left_out(word, meant), meant) for meant, score, _ in near if meant[0] == word[0]
        )
        return [(meant, score) for score, _, meant in ranked[:TRIED]]


def _letters_left_out(word: str, meant: str) -> bool:
    """Whether `word` is `meant` with letters left out, the commonest slip of all."""
    letters = iter(meant)
    return all(letter in letters for letter in word)
