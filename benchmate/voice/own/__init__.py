"""One speaker's own voice: lines read aloud once move the general sound model's means towards it.

Only counts and sums are kept, never a sound. A line read is laid along its words (`aligned`), each moment is shared out
among the model's densities (`soundmodel`), and what came together gives new means (`tally`).
"""

from __future__ import annotations

from .lesson import Lesson, lesson_lines

__all__ = ["Lesson", "lesson_lines"]
