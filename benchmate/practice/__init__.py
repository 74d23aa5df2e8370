"""In: a reading, a tree's record, a place, a day. Out: advice, with every reason, question and doubt named.

Never reads a file, never writes, never looks at the clock; knows nothing that the rules do not say.
"""

from benchmate.practice.advise import advise
from benchmate.practice.book import RuleBook, book_as_plain, book_from_plain
from benchmate.practice.compile import compile_book
from benchmate.practice.facts import Facts
from benchmate.practice.gather import gather

__all__ = ["Facts", "RuleBook", "advise", "book_as_plain", "book_from_plain", "compile_book", "gather"]
