"""`say`, `hear`, `words`, `learn` and `voice`: commands that take statements, or speak of them."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from benchmate.fault import UserError
from benchmate.garden.json_text import json_text
from benchmate.talk.commands.settings import house_of, print_json, print_lines, wants_json
from benchmate.talk.dates import today_of
from benchmate.telling.lines import ANSWER, ASIDE, REASON, Line


def say(args: Namespace) -> int:
    """One statement, one answer; or statement after statement from standard input."""
    from benchmate.talk.bench import Bench
    from benchmate.telling import as_json, lay, tell

    many = args.text == "-"
    on = today_of(getattr(args, "on", None))
    tree, dry = getattr(args, "tree", None), getattr(args, "dry", False)
    plain = bool(getattr(args, "plain", False))
    bench = Bench(house_of(args), on, tree=tree, dry=dry, talking=many, plain=plain)
    if many:
        return _say_each(bench, args)
    answer = bench.answer(args.text)
    if wants_json(args):
        print_json(as_json(answer, lay(tell(answer))))
    else:
        print_lines(tell(answer, plain=plain), args)
    return 0


def _say_each(bench: object, args: Namespace) -> int:
    from benchmate.talk.bench import Bench
    from benchmate.talk.plain_loop import converse, piped_lines
    from benchmate.talk.screen import screen_of
    from benchmate.telling import Answer, as_json, lay, tell

    assert isinstance(bench, Bench)
    if not wants_json(args):
        screen = screen_of(sys.stdout, plain=bool(getattr(args, "plain", False)))
        return converse(bench.answer, piped_lines(), screen)
    status = 0

    def one_line(answer: Answer) -> str:
        return json_text(as_json(answer, lay(tell(answer))))

    for words in piped_lines():
        if words.strip():
            try:
                print(one_line(bench.answer(words)), flush=True)
            except UserError as error:
                status = 1
                print(f"benchmate: {error}", file=sys.stderr, flush=True)
    return status


def hear_command(args: Namespace) -> int:
    """The reading alone. A file gives one reading a line, whatever its lines hold."""
    from benchmate.talk.statement import checked
    from benchmate.telling.heard import heard_lines

    if sum(given is not None for given in (args.text, args.file, args.wav)) != 1:
        raise UserError("say what is to be heard: a statement, - for standard input, --file F or --wav F")
    on = today_of(getattr(args, "on", None))
    house = house_of(args)
    if args.file is not None or args.text == "-":
        for words in _lines_of(args.file):
            reading = house.hear(words, on)
            if wants_json(args):
                print_json(reading.as_json())
            else:
                print_lines(heard_lines(reading, on) or [Line("Nothing was understood.", ASIDE)], args)
        return 0
    if args.wav is not None:
        from benchmate.talk.aloud.by_voice import heard_wave

        reading = heard_wave(house, args.wav, on)
    else:
        reading = house.hear(checked(args.text), on)
    if wants_json(args):
        print_json(reading.as_json())
    else:
        print_lines(heard_lines(reading, on) or [Line("Nothing was understood.", ASIDE)], args)
    return 0


def _lines_of(path: str | None) -> Iterator[str]:
    """Statements, one a line. Only line ends end a statement; bytes that are no UTF-8 are kept as marks."""
    if path is None:
        from benchmate.talk.plain_loop import piped_lines

        yield from piped_lines()
        return
    try:
        text = Path(path).read_bytes().decode("utf-8", errors="replace")
    except OSError as error:
        raise UserError(
            f"{path}: {(error.strerror or 'it cannot be read').lower()}; name a file of statements"
        ) from error
    lines = text.replace("\r\n", "\n").split("\n")
    yield from lines[:-1] if lines and not lines[-1] else lines


def words_command(args: Namespace) -> int:
    """Words that were not taken in, how often, and the line of TOML that would teach each."""
    from benchmate.talk.recorded.missed_words import HOME, missed_words

    house = house_of(args)
    rows = missed_words(house)
    if wants_json(args):
        print_json({"words": rows})
        return 0
    if not rows:
        print_lines([Line("Every word so far was taken in, or none were kept.", ANSWER)], args)
        return 0
    lines = [Line(f"{len(rows)} {'word was' if len(rows) == 1 else 'words were'} not taken in.", ANSWER)]
    for row in rows:
        times = "once" if row["times"] == 1 else f"{row['times']} times"
        lines.append(Line(f'"{row["word"]}" ({times}), as in: {row["said"]}', REASON))
        lines.append(Line(str(row["teach"]), REASON, indent=2))
    where = house.folder / HOME if house.folder else HOME
    lines.append(Line(f"Such a line goes under [heard] in {where}, with a word that is known for the dots.", ASIDE))
    print_lines(lines, args)
    return 0


def learn_command(args: Namespace) -> int:
    """Five minutes at the bench with a copy of the demo garden."""
    from benchmate.talk.start.learning import learn

    status: int = learn(args)
    return status


def voice_command(args: Namespace) -> int:
    """Lines read aloud, from which the recogniser learns a voice."""
    from benchmate.talk.aloud.teaching import teach

    status: int = teach(args)
    return status
