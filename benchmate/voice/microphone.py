"""The microphone: a statement is what is said between two presses of Enter, or after the wake word until a silence."""

from __future__ import annotations

import queue
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from importlib import import_module
from typing import Any

from benchmate.fault import UserError

from .floor import powers_of
from .recogniser import CHUNK, GET_IT, Recogniser, Speech
from .wave_file import LONGEST_S, RATE

SILENCE_S = 0.5  # ends a statement when the microphone stays open
FRAME_S = 0.03  # of the endpointer
MOST_WAITING = 40  # frames, more than the endpointer holds back
FADED = 0.05  # of the power of the speech before; what is fainter is taken for silence
_LONGEST = LONGEST_S * RATE * 2


class Microphone:
    """The machine's microphone, open inside `with`. Raises UserError without the extra or a microphone."""

    def __init__(self) -> None:
        try:
            self._sound = import_module("sounddevice")
        except (ImportError, OSError) as error:  # OSError: the package is there, the system's PortAudio is not
            raise UserError(GET_IT if isinstance(error, ImportError) else f"no sound: {error}") from error
        self._chunks: queue.Queue[bytes] = queue.Queue()
        self._stream: Any = None

    def __enter__(self) -> Microphone:
        def take(data: Any, _frames: int, _time: Any, _status: Any) -> None:
            self._chunks.put(bytes(data))

        try:
            self._stream = self._sound.RawInputStream(
                samplerate=RATE, channels=1, dtype="int16", blocksize=CHUNK // 2, callback=take
            )
            self._stream.start()
        except Exception as error:  # the package has errors of its own for each system
            raise UserError(f"the microphone cannot be opened ({error}); plug one in, or type") from error
        return self

    def __exit__(self, *_: object) -> None:
        self._stream.stop()
        self._stream.close()

    def chunks(self) -> Iterator[bytes]:
        """A tenth of a second at a time, until `finish`."""
        while chunk := self._chunks.get():
            yield chunk

    def finish(self) -> None:
        """End the chunks where the sound stands now."""
        self._chunks.put(b"")

    def drain(self) -> bytes:
        """What has come in and was not taken yet."""
        parts = []
        while not self._chunks.empty():
            parts.append(self._chunks.get())
        return b"".join(parts)


def spoken_statements(
    wait: Callable[[str], str],
    recogniser: Recogniser,
    wake: Sequence[str],
    open_microphone: Callable[[], Microphone] = Microphone,
) -> Iterator[Speech]:
    """Statement after statement: Enter begins and ends one; after "o" a wake word begins each.

    wait: shows its words and gives what was typed at Enter; EOFError or KeyboardInterrupt ends the talk.
    """
    called = f' (o and Enter: stay open, and begin with "{wake[0]}")' if wake else ""
    while True:
        try:
            typed = wait(f"Enter to speak{called} ")
            with open_microphone() as microphone:
                if wake and typed.strip().casefold() in ("o", "open"):
                    yield from woken_statements(microphone, recogniser, wake)
                    continue
                microphone.drain()
                speech = _until(lambda: wait("listening; Enter when you are done "), microphone, recogniser)
        except (EOFError, KeyboardInterrupt):
            return
        yield speech


def _until(ended: Callable[[], object], microphone: Microphone, recogniser: Recogniser) -> Speech:
    """What is said until `ended` returns, heard meanwhile."""
    live = recogniser.live()

    def listen() -> Speech:
        for chunk in microphone.chunks():
            live.more(chunk)
        return live.end()

    with ThreadPoolExecutor(1) as pool:
        heard = pool.submit(listen)
        try:
            ended()
        finally:
            microphone.finish()
        return heard.result()


def recorded(ended: Callable[[], object], microphone: Microphone) -> bytes:
    """What is said until `ended` returns."""
    try:
        ended()
    finally:
        microphone.finish()
    return b"".join(microphone.chunks())


def woken_statements(microphone: Microphone, recogniser: Recogniser, wake: Sequence[str]) -> Iterator[Speech]:
    """Statements said behind a wake word. What is said without one is dropped and kept nowhere."""
    live = recogniser.live()
    for part in utterances(microphone.chunks()):
        if part:
            live.more(part)
            continue
        said = after_wake_word(live.end(), wake)
        live = recogniser.live()
        if said is not None and said.words:
            yield said
            microphone.drain()  # what came in meanwhile is the answer said aloud


def after_wake_word(speech: Speech, wake: Sequence[str]) -> Speech | None:
    """What follows the wake word, or None where the speech does not begin with one."""
    for words in wake:
        if speech.text == words or speech.text.startswith(words + " "):
            left = speech.words[len(words.split()) :]
            return Speech(left, tuple(rival.removeprefix(words).strip() for rival in speech.rivals))
    return None


def utterances(chunks: Iterator[bytes]) -> Iterator[bytes]:
    """The stretches of speech in a sound that goes on, part by part; an empty one where half a second of silence ends a
    stretch. A part comes as late as that silence is long, and the silence itself comes last: words die away in it.
    """
    sphinx = import_module("pocketsphinx")
    found, powers, waiting = _endpointer(sphinx), list[float](), deque[bytes](maxlen=MOST_WAITING)
    frame, held, long = int(found.frame_bytes), b"", 0
    for chunk in chunks:
        held += chunk
        while len(held) >= frame:
            part, held = held[:frame], held[frame:]
            waiting.append(part)
            spoken = found.process(part)
            powers = [*powers, sum(powers_of(part))] if found.in_speech else []
            if spoken:
                while waiting and waiting.popleft() != spoken:
                    pass
                long += len(spoken)
                yield bytes(spoken)
            if long and (not found.in_speech or long > _LONGEST or has_ended(powers)):
                if waiting:
                    yield b"".join(waiting)
                yield b""
                waiting.clear()
                found, powers, long = _endpointer(sphinx), [], 0


def _endpointer(sphinx: Any) -> Any:
    return sphinx.Endpointer(window=SILENCE_S, sample_rate=RATE, vad_mode=sphinx.Vad.STRICT)


def has_ended(powers: Sequence[float]) -> bool:
    """Whether the last half second holds nothing as loud as speech was before: wind and birds never fall silent.

    powers: of the frames since speech began, each of 0.03 s. One loud frame may be a click.
    """
    last = round(SILENCE_S / FRAME_S)
    if len(powers) < 2 * last:
        return False
    louder = sorted(powers)[len(powers) // 2 :]
    least = sum(louder) / len(louder) * FADED
    return sum(power >= least for power in powers[-last:]) <= 1
