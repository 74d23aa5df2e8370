"""The talk at a terminal: history, completion as words are typed, a status line. Imported only when it opens."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from types import FrameType

from prompt_toolkit import PromptSession
from prompt_toolkit.completion import CompleteEvent, Completer
from prompt_toolkit.completion import Completion as Shown
from prompt_toolkit.document import Document
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.history import FileHistory, History, InMemoryHistory
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.styles import Style

from benchmate.talk.complete import Phrases, complete
from benchmate.telling.lines import Line, lay

# Reversed and bold only: readable in sun, on any background, and with no colour at all.
_STYLE = Style.from_dict(
    {
        "bottom-toolbar": "noreverse bold",
        "bottom-toolbar.text": "reverse bold",
        "completion-menu.completion": "noreverse bg:default fg:default",
        "completion-menu.completion.current": "reverse",
        "completion-menu.meta.completion": "noreverse bg:default fg:default",
        "completion-menu.meta.completion.current": "reverse",
    }
)


class BenchCompleter(Completer):
    """Completions of the phrases; asked for anew each time, since a tree may have been added."""

    def __init__(self, phrases: Callable[[], Phrases]) -> None:
        self._phrases = phrases

    def get_completions(self, document: Document, event: CompleteEvent) -> Iterable[Shown]:
        for found in complete(document.text_before_cursor, self._phrases()):
            yield Shown(found.words, start_position=-found.length, display_meta=found.kind)


class DraftKeeper:
    """Keeps what is half typed: when the terminal goes away it is put into the history, for the arrow key."""

    def __init__(self, history: History) -> None:
        self._history = history
        self.typed: Callable[[], str] = lambda: ""
        for name in ("SIGHUP", "SIGTERM"):
            if hasattr(signal, name):
                signal.signal(getattr(signal, name), self._leave)

    def _leave(self, number: int, frame: FrameType | None) -> None:
        words = self.typed().strip()
        if words:
            self._history.store_string(words)
        os._exit(128 + number)


def history_of(folder: Path | None) -> History:
    """The history of the garden in its `.benchmate` folder, or of this talk alone where nothing may be written."""
    if folder is None:
        return InMemoryHistory()
    try:
        folder.mkdir(exist_ok=True)
        path = folder / "history"
        with path.open("ab"):
            pass
    except OSError:
        return InMemoryHistory()
    return FileHistory(str(path))


def prompted_lines(
    history: History,
    phrases: Callable[[], Phrases],
    status: Callable[[int], str],
    offered: Callable[[], int],
    picking: Callable[[int], str],
) -> Iterator[str]:
    """Statements as they are typed. Ctrl-C gives a line up, Ctrl-D on an empty line ends.

    status: the line at the bottom, at a width. offered: how many options may be taken; F1 to F9 take one at a press.
    picking: what taking an option would log, shown while its number stands alone on the line.
    """
    session: PromptSession[str] = PromptSession(
        history=history,
        completer=BenchCompleter(phrases),
        complete_while_typing=True,
        style=_STYLE,
        color_depth=ColorDepth.DEPTH_1_BIT,
        key_bindings=_keys(offered),
        reserve_space_for_menu=4,
    )

    def toolbar() -> FormattedText:
        words = session.default_buffer.text.strip()
        width = session.app.output.get_size().columns
        told = picking(int(words)) if words.isdecimal() and 0 < int(words[:3]) <= offered() else status(width)
        # folded here, between words: what does not fit on the line would be cut off
        return FormattedText([("", lay([Line(told)], width))])

    keeper = DraftKeeper(history)
    keeper.typed = lambda: session.default_buffer.text
    while True:
        try:
            yield session.prompt("> ", bottom_toolbar=toolbar)
        except KeyboardInterrupt:
            continue
        except EOFError:
            return


def _keys(offered: Callable[[], int]) -> KeyBindings:
    keys = KeyBindings()

    def take(number: int) -> Callable[[KeyPressEvent], None]:
        def press(event: KeyPressEvent) -> None:
            if number <= offered() and not event.current_buffer.text:
                event.current_buffer.text = f"take option {number}"
                event.current_buffer.validate_and_handle()

        return press

    for number in range(1, 10):
        keys.add(f"f{number}")(take(number))
    return keys
