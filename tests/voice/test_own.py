"""A speaker's own voice: lines read aloud are laid along their words, and move the means of the sound model."""

from __future__ import annotations

import math
import sys
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest
from spoken import HERE, said_by

from benchmate.fault import UserError
from benchmate.talk.aloud.teaching import read_aloud
from benchmate.talk.screen import Screen
from benchmate.voice.own import Lesson, lesson_lines
from benchmate.voice.own.soundmodel import Shares, read_sound_model
from benchmate.voice.own.tally import PRIOR
from benchmate.voice.recogniser import WARPS, general_sounds
from benchmate.voice.said import PAUSES, spoken_words
from benchmate.voice.taught import forget, lines_taught, means_of, means_path, tally_path

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))
VOICE = ("en-us+f2", 150)


@pytest.fixture(scope="module")
def lines(tables):
    return lesson_lines(tables)


@pytest.fixture
def lesson(voices_here, tables, tmp_path):
    found = Lesson(tables, tmp_path / "own")
    yield found
    found.close()


@pytest.fixture(scope="module")
def model(voices_here):
    return read_sound_model(general_sounds())


def plain(statement: str) -> str:
    return " ".join(word for word in spoken_words(statement, {}) if word not in PAUSES)


def test_no_statement_that_is_measured_is_a_line_of_the_lesson(lines):
    read = {plain(line) for line in lines}
    assert len(read) >= 40
    for path in HERE.glob("statements*.toml"):
        said = {plain(statement) for statement in tomllib.loads(path.read_text(encoding="utf-8"))["say"]}
        assert said and read.isdisjoint(said), path.name


def test_the_sound_model_is_read_as_the_recogniser_describes_it(model):
    """Sizes of the model that comes with pocketsphinx 5: 42 phones, 3 streams of 128 densities, 5126 states."""
    assert model.shape == (42, 3, 128, 13) and model.senones == 5126
    assert {"SIL", "AA", "ZH"} <= set(model.phones) and not model.is_speech(model.phones.index("SIL"))
    assert all(variance > 0 for variance in model.variances)


def test_a_moment_is_shared_out_as_the_densities_and_their_weights_say(model):
    """Against the shares worked out straight from the formula of the normal density; a weight falls by 1024 times the
    logarithm of 1.0001 for each step in which it is stored."""
    shape, codebook, senone, density = model.shape, model.phones.index("IY"), 2547, 17
    first = [(codebook * shape.streams + stream) * shape.densities for stream in range(shape.streams)]
    places = [(at + density) * shape.length for at in first]
    frame = [tuple(value + 0.5 for value in model.means[place : place + shape.length]) for place in places]
    shares = Shares(model).of(codebook, senone, frame)
    for stream, at in enumerate(first):
        likely = []
        for one in range(shape.densities):
            step = model.weights[(stream * shape.densities + one) * model.senones + senone]
            place = slice((at + one) * shape.length, (at + one + 1) * shape.length)
            row = zip(frame[stream], model.means[place], model.variances[place], strict=True)
            exponent = sum((x - m) ** 2 / v + math.log(v) for x, m, v in row)
            likely.append(math.exp(-0.5 * exponent - step * 1024 * math.log(1.0001)))
        told = {number: share for where, number, share in shares if where == stream}
        assert told and sum(told.values()) == pytest.approx(1.0, abs=0.1)  # less than a thousandth is passed over
        for number, share in told.items():
            assert share == pytest.approx(likely[number] / sum(likely), rel=1e-3)


def test_which_line_was_read_is_told_and_another_statement_is_none(lesson, lines):
    assert lesson.which(said_by(lines[3], *VOICE)) == lines[3]
    assert not lesson.is_this(lines[4], said_by(lines[3], *VOICE))
    assert lesson.which(said_by("the beech is weak", *VOICE)) is None
    assert not lesson.take(lines[0], bytes(32_000)) and lesson.taken == 0  # silence teaches nothing


def test_what_was_read_moves_the_means_as_the_prior_lets_it_and_is_kept(lesson, tables, lines, model, tmp_path):
    for line in lines[:2]:
        assert lesson.take(line, said_by(line, *VOICE))
    lesson.keep()
    folder = tmp_path / "own"
    assert lines_taught(folder, WARPS) == 2
    tally = lesson._tallies[WARPS[0]]
    means, length = tally.means(), model.shape.length
    untouched = heard = 0
    for density, count in enumerate(tally.counts):
        for at in range(density * length, (density + 1) * length):
            if not count:
                untouched += 1
                assert means[at] == model.means[at]
                continue
            heard += 1
            share = count / (PRIOR + count)
            want = model.means[at] + share * (tally.sums[at] / count - model.means[at])
            assert means[at] == pytest.approx(want, rel=1e-3, abs=1e-3)
    assert untouched and heard
    again = Lesson(tables, folder)
    assert again.taken == 2 and again._tallies[WARPS[0]].counts == tally.counts
    again.close()
    assert all(means_of(folder, warp, general_sounds()) == means_path(folder, warp) for warp in WARPS)
    forget(folder)
    assert lines_taught(folder, WARPS) == 0 and means_of(folder, WARPS[0], general_sounds()) is None


def test_what_belongs_to_another_sound_model_is_not_used(voices_here, tables, tmp_path):
    for path in (means_path, tally_path):
        path(tmp_path, WARPS[0]).write_bytes(b"of another")
    assert means_of(tmp_path, WARPS[0], general_sounds()) is None
    with pytest.raises(UserError, match="benchmate voice --forget"):
        Lesson(tables, tmp_path)


class Spoken:
    """A microphone that gives one sound after another."""

    def __init__(self, sounds):
        self._sounds = list(sounds)

    def __call__(self):
        return self

    __enter__ = __call__

    def __exit__(self, *_):
        pass

    def finish(self):
        pass

    def chunks(self):
        yield self._sounds.pop(0)


def test_what_was_read_stays_learnt_where_the_microphone_goes(voices_here, tables, lines, tmp_path):
    class Unplugged(Spoken):
        def __enter__(self):
            if not self._sounds:
                raise UserError("the microphone cannot be opened")
            return self

    house, screen = SimpleNamespace(tables=SimpleNamespace(tables=tables)), Screen(None, False, True)
    microphone = Unplugged([said_by(lines[0], *VOICE)])
    with pytest.raises(UserError, match="microphone"):
        read_aloud(house, tmp_path, lines, screen, lambda _words: "", microphone)
    assert lines_taught(tmp_path, WARPS) == 1


@pytest.mark.parametrize(
    ("typed", "read", "told", "taken"),
    [
        (["", "", "d"], [0], "learnt from one line", 1),
        (["s", "", "", "done"], [1], "learnt from one line", 1),
        (["", "", "", "", "d"], [5, 0], "could not be followed; once more", 1),
        (["", "", "", "", "d"], [5, 6], "could not be followed; on to the next", 0),
        (["d"], [], "Nothing was learnt", 0),
        ([], [], "Nothing was learnt", 0),  # the end of input
    ],
)
def test_the_lesson_at_the_terminal(voices_here, tables, lines, tmp_path, capsys, typed, read, told, taken):
    keys = iter(typed)

    def ask(_words):
        try:
            return next(keys)
        except StopIteration:
            raise EOFError from None

    microphone = Spoken(said_by(lines[number], *VOICE) for number in read)
    assert (
        read_aloud(
            SimpleNamespace(tables=SimpleNamespace(tables=tables)),
            tmp_path,
            lines,
            Screen(None, False, True),
            ask,
            microphone,
        )
        == 0
    )
    assert told in capsys.readouterr().out
    assert lines_taught(tmp_path, WARPS) == taken


def test_a_voice_that_read_lines_is_heard_better(voices_here):
    """Freely spoken statements, in one voice, before and after twenty lines."""
    from voice import measure, pooled

    floor = tomllib.loads((HERE / "floors.toml").read_text(encoding="utf-8"))["taught"]["clean"]
    found = {n: pooled(measure([VOICE], 6, False, "statements_unseen", ["clean"], taught=n)) for n in (0, 20)}
    assert found[20]["word_error"] < found[0]["word_error"], found
    assert found[20]["exact_share"] >= floor["exact_share"], found
    assert found[20]["silent_share"] <= floor["silent_share"], found
