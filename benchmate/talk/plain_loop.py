"""The talk line by line: for pipes, dumb terminals and screen readers. No prompt unless someone sits there."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator

from benchmate.fault import UserError
from benchmate.talk.screen import Screen
from benchmate.talk.slips import slip_words
from benchmate.telling import Answer, tell
from benchmate.telling.lines import escape

Ask = Callable[[str], Answer]


def tell_answer(answer: Answer, screen: Screen) -> str:
    """The answer as it stands on the screen."""
    return screen.lay(tell(answer, plain=screen.plain))


def converse(
    ask: Ask, statements: Iterator[str], screen: Screen | Callable[[], Screen], *, attended: bool = False
) -> int:
    """Answer statement after statement until they end or the grower leaves. Gives 1 if one of them was at fault.

    A statement at fault costs one line on standard error, and the talk goes on. An empty line does nothing.
    screen: how answers are laid; asked anew each time where it may change its width. attended: somebody sits there, and
    Ctrl-C gives up the one statement that is being answered.
    """
    status = 0
    for statement in statements:
        if not statement.strip():
            continue
        try:
            answer = ask(statement)
        except UserError as error:
            status = _tell_fault(str(error))
            continue
        except KeyboardInterrupt:
            if not attended:
                raise
            print("given up", flush=True)
            continue
        except Exception as error:  # one statement must not end the talk
            status = _tell_fault(slip_words(error))
            continue
        print(tell_answer(answer, screen if isinstance(screen, Screen) else screen()), flush=True)
        print(flush=True)
        if answer.ends:
            break
    return status


def _tell_fault(words: str) -> int:
    sys.stdout.flush()
    print(f"benchmate: {escape(words)}", file=sys.stderr, flush=True)
    return 1


def typed_lines(prompt: Callable[[], str]) -> Iterator[str]:
    """What is typed, line by line. Ctrl-C gives the line up, Ctrl-D or the end of input ends."""
    while True:
        try:
            yield input(prompt())
        except KeyboardInterrupt:
            print()
        except EOFError:
            print()
            return


def piped_lines() -> Iterator[str]:
    """Standard input, a statement a line. Bytes that are no UTF-8 are kept as marks, not refused."""
    stream = sys.stdin
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(encoding="utf-8", errors="replace")
    for line in stream:
        yield line.rstrip("\r\n")
