"""The talk by voice: what is spoken goes the way of what is typed, and answers are said aloud."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from benchmate.fault import UserError
from benchmate.hearing.reading import Reading
from benchmate.telling.answer import Answer

if TYPE_CHECKING:
    import datetime as dt

    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House
    from benchmate.voice import Listener, Occasion


def listener_of(house: House, on: dt.date) -> tuple[Listener, Occasion]:
    """The listener of this garden, and what its readings hang on. Raises UserError without the voice extra."""
    from benchmate.talk.aloud.teaching import kept_voice
    from benchmate.voice import Listener, Occasion

    trees = house.trees()
    names, species = tuple(tree.name for tree in trees), tuple(tree.species for tree in trees if tree.species)
    kept = house.folder / ".benchmate" if house.folder else None
    print("Making ready to listen; the first time takes half a minute.", file=sys.stderr, flush=True)
    listener = Listener(house.tables.tables, house.ear, names, kept, species, kept_voice(house))
    return listener, Occasion(on, house.place.southern, names, house.first_frost(on))


def heard_wave(house: House, path: str, on: dt.date) -> Reading:
    """The reading of a wave file. Raises UserError for what is no such file."""
    from benchmate.voice import read_wave

    sound = read_wave(Path(path))  # a file at fault is told at once, before a listener is made
    listener, at = listener_of(house, on)
    return listener.hear(sound, at)


def spoken_statements(bench: Bench) -> tuple[Iterator[str], Callable[[str], Answer]]:
    """(statements as they are spoken, the answer to the one just spoken).

    Enter begins and ends a statement, or a wake word does; unsure words are read back before anything is logged."""
    from benchmate.voice.microphone import spoken_statements as spoken

    listener, at = listener_of(bench.house, bench.on)
    if bench.house.folder and not listener.knows_speaker:
        print("To be heard better, read some lines aloud once: benchmate voice", file=sys.stderr, flush=True)
    heard: list[Reading] = []

    def statements() -> Iterator[str]:
        for speech in spoken(input, listener.recogniser, listener.wake):
            heard[:] = [listener.reading(speech, at)]
            if not heard[0].said:
                print("nothing was heard; say it again", file=sys.stderr, flush=True)
            yield heard[0].said

    def answer(said: str) -> Answer:
        return bench.carry(heard[0]) if heard and heard[0].guessed else bench.answer(said)

    return statements(), answer


def aloud(ask: Callable[[str], Answer]) -> Callable[[str], Answer]:
    """The same, with every answer said aloud, cautions first. Raises UserError where nothing can speak.

    Where no sound can be made that is told once, and the talk goes on in text.
    """
    from benchmate.voice import aloud as voice

    if not voice.can_speak():
        raise UserError(voice.GET_IT)
    mute: list[str] = []

    def answer(said: str) -> Answer:
        told = ask(said)
        sentences = voice.sentences_aloud(*aloud_parts(told))
        if sentences and not mute and not voice.say_aloud(sentences):
            mute.append(voice.NO_SOUND)
            print(f"benchmate: {voice.NO_SOUND}", file=sys.stderr, flush=True)
        return told

    return answer


def aloud_parts(answer: Answer) -> tuple[list[str], list[str]]:
    """(cautions, the answer's own lines) of what is said aloud: the answer, what was logged, what is asked."""
    from benchmate.telling.headline import headline_of
    from benchmate.telling.told import logged_lines

    cautions = [caution.short or caution.says for caution in answer.advice.cautions] if answer.advice else []
    lines = [answer.confirm or "", headline_of(answer) or "", *answer.says[1:]]
    lines += [f"{line.lead}{line.words}" for line in logged_lines(answer)]
    lines += [ask.says for ask in answer.all_asks]
    return cautions, [line for line in lines if line]
