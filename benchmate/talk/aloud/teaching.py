"""Lines read aloud once, so that the recogniser knows this grower's voice: from the microphone or from wave files."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from benchmate.fault import UserError
from benchmate.talk.commands.settings import house_of
from benchmate.talk.screen import Screen, both_terminals, screen_of
from benchmate.telling.lines import ANSWER, ASIDE, OPTION, Line, escape

if TYPE_CHECKING:
    from benchmate.talk.house import House
    from benchmate.voice.microphone import Microphone
    from benchmate.voice.own import Lesson

KEPT = "own-voice"  # folder, beside the voice's model
TRIES = 2  # at one line
SECONDS_A_LINE = 8
_SKIP, _DONE = {"s", "skip"}, {"d", "done", "end", "stop", "goodbye"}


def kept_voice(house: House) -> Path | None:
    """Where this garden keeps its grower's voice; None without a garden."""
    return house.folder / ".benchmate" / KEPT if house.folder else None


def teach(args: Namespace) -> int:
    """The lesson: `--wav` takes recordings, `--forget` forgets; where nobody sits there the lines are printed."""
    from benchmate.voice.own import lesson_lines

    house = house_of(args)
    screen = screen_of(sys.stdout, plain=bool(getattr(args, "plain", False)))
    folder = kept_voice(house)
    if folder is None:
        raise UserError("a garden keeps your voice, and there is none; begin one with: benchmate")
    lines = lesson_lines(house.tables.tables)
    if args.forget:
        return _forget(folder, screen)
    if args.wav:
        return _from_files(house, folder, args.wav, screen)
    if not both_terminals():
        _tell(screen, *(Line(line, OPTION, f"{number}  ") for number, line in enumerate(lines, 1)))
        return 0
    return read_aloud(house, folder, lines, screen)


def read_aloud(
    house: House,
    folder: Path,
    lines: Sequence[str],
    screen: Screen,
    ask: Callable[[str], str] = input,
    open_microphone: Callable[[], Microphone] | None = None,
) -> int:
    """Line after line: Enter before it and after it. What was learnt is kept whenever it ends."""
    from benchmate.voice.microphone import Microphone, recorded
    from benchmate.voice.own import Lesson

    lesson = Lesson(house.tables.tables, folder)
    before = lesson.taken
    minutes = max(1, round(len(lines) * SECONDS_A_LINE / 60))
    _tell(
        screen,
        Line(f"{len(lines)} lines to read aloud, some {minutes} minutes; half of them help already.", ANSWER),
        Line("Speak as you do at the bench. What is kept are sums, no sound, and they stay in your garden.", ASIDE),
        Line("Enter begins a line and ends it; s and Enter skips it, d and Enter is done.", ASIDE),
    )
    try:
        for number, line in enumerate(lines, 1):
            _tell(screen, Line(""), Line(line, OPTION, f"{number} of {len(lines)}  "))
            for left in range(TRIES - 1, -1, -1):
                said = ask("Enter, then read it: ").strip().casefold()
                if said in _SKIP:
                    break
                if said in _DONE:
                    raise EOFError
                with (open_microphone or Microphone)() as microphone:
                    sound = recorded(lambda: ask("reading; Enter when you are done "), microphone)
                if lesson.is_this(line, sound) and lesson.take(line, sound):
                    break
                then = "once more" if left else "on to the next"
                _tell(screen, Line(f"That could not be followed; {then}.", ASIDE))
    except (EOFError, KeyboardInterrupt):
        print()
    except UserError:  # the microphone has gone: what was read before stays learnt
        if lesson.taken > before:
            _kept(lesson, before, screen)
        raise
    return _kept(lesson, before, screen)


def _from_files(house: House, folder: Path, files: Sequence[str], screen: Screen) -> int:
    """Recordings of lines, in any order. Gives 1 where one was left out."""
    from benchmate.voice import read_wave
    from benchmate.voice.own import Lesson

    sounds = [(name, read_wave(Path(name))) for name in files]  # one at fault is told before anything is learnt
    lesson = Lesson(house.tables.tables, folder)
    before, status = lesson.taken, 0
    for name, sound in sounds:
        line = lesson.which(sound)
        if line is None or not lesson.take(line, sound):
            status = 1
            print(f"benchmate: {escape(name)}: none of the lines could be followed in it; left out", file=sys.stderr)
    return max(status, _kept(lesson, before, screen))


def _kept(lesson: Lesson, before: int, screen: Screen) -> int:
    """Keep what was learnt, and tell of it."""
    more = lesson.taken - before
    try:
        if more:
            lesson.keep()
    except OSError as error:
        raise UserError(f"your voice could not be kept ({error.strerror}); free some room and read again") from error
    finally:
        lesson.close()
    if not more:
        _tell(screen, Line("Nothing was learnt.", ANSWER))
        return 0
    _tell(
        screen,
        Line(f"Your voice is learnt from {_lines(lesson.taken)}.", ANSWER),
        Line("benchmate --listen and hear --wav go by it; benchmate voice --forget lets it go.", ASIDE),
    )
    return 0


def _forget(folder: Path, screen: Screen) -> int:
    from benchmate.voice.taught import forget

    known = folder.is_dir()
    forget(folder)
    _tell(screen, Line("Your voice is forgotten." if known else "No voice was learnt here.", ANSWER))
    return 0


def _lines(count: int) -> str:
    return "one line" if count == 1 else f"{count} lines"


def _tell(screen: Screen, *lines: Line) -> None:
    print(screen.lay(lines), flush=True)
