"""Words run together, as typed in haste or by a speech recogniser: "cani", "rootpruned"."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import Lexicon
from .words import Word

LONG = 9  # letters from which a word with one too many is a slip rather than two words run together


def taken_apart(text: str, words: Sequence[Word], lexicon: Lexicon) -> list[Word]:
    """The words, those that were run together taken apart where a term begins with the two; what is written as a name
    inside a sentence ("over to Lighthouse") stays whole."""
    out: list[Word] = []
    for word in words:
        named = bool(word.start) and text[word.start : word.end].istitle() and text[word.start - 1] == " "
        known = word.text in lexicon.known or word.text in lexicon.plain
        cut = None if known or named else _seam(word.text, lexicon)
        if cut is None:
            out.append(word)
        else:
            at = word.start + cut
            out += [Word(word.text[:cut], word.start, at), Word(word.text[cut:], at, word.end)]
    return out


def _seam(text: str, lexicon: Lexicon) -> int | None:
    if len(text) < 4 or not text.isalpha():
        return None
    known, trie = lexicon.known, lexicon.trie
    if len(text) >= LONG and any(text[:at] + text[at + 1 :] in known for at in range(len(text))):
        return None  # a letter too many: "cottoneaster"
    for cut in range(len(text) - 1, 1, -1):
        head, tail = text[:cut], text[cut:]
        if head in trie and (tail in trie[head] or (tail in ("it", "them") and head in known)):
            return cut
        both = {head, tail} <= known
        if both and ((len(head) > 4 and len(tail) > 4) or (head in lexicon.little and len(head) > 2 and len(tail) > 3)):
            return cut
    return None
