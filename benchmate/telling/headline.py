"""The answer in one line: what comes first, whatever was asked."""

from __future__ import annotations

import datetime as dt

from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Option, Reason
from benchmate.telling.answer import Answer
from benchmate.telling.dates import day_of, day_words, within_words
from benchmate.telling.figures import figure_line
from benchmate.telling.options import blocks_first, option_words
from benchmate.telling.wording import list_words, quoted_words, sentence, small


def headline_of(answer: Answer) -> str:
    """The answer in one line, or "" where there is nothing to answer. What the grower planned or decided of the work
    that is asked about goes before the verdict."""
    if answer.says:
        return sentence(answer.says[0])
    return " ".join(filter(None, [*map(sentence, answer.own[:1]), _of_advice(answer)]))


def _of_advice(answer: Answer) -> str:
    advice, reading = answer.advice, answer.reading
    if answer.confirm or advice is None:
        return ""
    told = reading.told_beside  # "repotted it, may I feed it": the repot is not asked about
    asked = {work.work for work in reading.work if work.work and work not in told}
    about = [option for option in advice.options if option.work in asked]
    if advice.figures:
        figure = advice.figures[0]
        stands = [option for option in about if option.verdict in (HOLD, AVOID)][:1] if reading.topic == "may" else []
        opens = [_verdict_sentence(option, answer) for option in stands] + (
            [sentence(figure.opens)] if figure.opens else []
        )
        return " ".join([*opens, sentence(figure_line(figure, answer.units))])
    if "ask" in reading.acts and reading.topic in ("may", "when", "why", "what-if") and about:
        best = advice.options[0]
        if best.work not in asked and best.verdict == GO and all(one.verdict == GO and one.weight < 0 for one in about):
            # what was asked may be done, but more speaks against it than for it, and there is something better
            return sentence(f"Better: {option_words(best, answer.units)}{_until(best, answer.on)}")
        seen: dict[str, Option] = {}
        for option in about:
            seen.setdefault(option.work, option)
        return " ".join(_verdict_sentence(option, answer) for option in seen.values())
    if "decide" in reading.acts and about:
        return _decided_sentence(about, answer)
    if not advice.options:
        return ""
    best = advice.options[0]
    words = option_words(best, answer.units)
    if reading.topic == "compare" and not about and advice.asks and not _kept(advice.options):
        return "Which of them cannot be told before it is known what tells them apart."
    if reading.topic == "compare" and len(about) > 1 and all(one.verdict in (HOLD, AVOID) for one in about):
        return f"Neither now: {_verdict_sentence(best, answer).split(': ', 1)[-1]}"
    if unasked := _not_taken_in(answer):
        due = best.verdict == GO and best.work not in ("leave", "wait")
        return f"{unasked} {sentence(f'Due anyway: {words}')}" if due else unasked
    if best.verdict == GO:
        return sentence(f"Best {_asked_for(answer)}: {words}{_until(best, answer.on)}")
    return _verdict_sentence(best, answer)


def _kept(options: tuple[Option, ...]) -> bool:
    """Whether one of two that are compared is among the options as the one to keep."""
    return any(one.work == "select-leader" and (one.spot.side or one.spot.level or one.spot.ordinal) for one in options)


def _not_taken_in(answer: Answer) -> str:
    """That a question was not taken in, with its words, or "" where it was, or where none was put."""
    reading = answer.reading
    missed = [one.words for one in reading.missed]
    if "ask" in reading.acts:
        lost = reading.topic in ("may", "when", "why") and not reading.work and bool(missed)
    else:  # heard as told, though its end asks
        lost = "decide" not in reading.acts and reading.said.rstrip().endswith("?")
    if not lost:
        return ""
    return sentence(
        f"The question was not taken in: {quoted_words(missed)}" if missed else "What is asked was not taken in"
    )


def _asked_for(answer: Answer) -> str:
    """ "Now", or the time to come that the advice is for."""
    day = day_of(answer.advice.on) if answer.advice else None
    ahead = day is not None and day > answer.on and answer.reading.when
    return within_words(ahead, answer.on) if ahead else "now"


def _verdict_sentence(option: Option, answer: Answer) -> str:
    words = option_words(option, answer.units)
    if option.verdict == GO and answer.reading.topic == "why":
        return sentence(option.because[0].says if option.because else f"No reason is known here: {words}")
    turned = answer.advice is not None and answer.advice.turned
    if option.verdict == GO and turned and option.against:
        return sentence(f"It may be done, but: {_first(option.against, words)}")
    if option.verdict == GO:
        return sentence(f"{'Nothing against it' if turned else 'Yes'}: {words}{_until(option, answer.on)}")
    if option.verdict == HOLD:
        opens = day_of(option.opens)
        if option.first and opens:
            weeks = f"from {day_words(opens, answer.on)}" if opens > answer.on else "now"
            weeks += _until(option, answer.on, "to" if opens > answer.on else "until")
            lacks = small(_first(option.first, words))
            return sentence(f"Not now: the weeks for it are {weeks}, and this stands against it first: {lacks}")
        if not opens or opens <= answer.on:
            return sentence(f"Not now: {_first(option.against, words)}")
        if answer.reading.topic == "when" or not option.against:
            return sentence(f"Not now: {words} from {day_words(opens, answer.on)}{_until(option, answer.on, 'to')}")
        return f"Not now: {sentence(_first(option.against, words))} From {day_words(opens, answer.on)}."
    if option.verdict == AVOID:
        if not option.against:
            return sentence(f"{'Better not' if turned else 'No, not'} on this tree: {words}")
        return sentence(f"{'Better not' if turned else 'No'}: {_first(option.against, words)}")
    asks = answer.all_asks
    return sentence(f"It depends: {asks[0].says[0].lower() + asks[0].says[1:] if asks and asks[0].says else words}")


def _decided_sentence(about: list[Option], answer: Answer) -> str:
    against = [option for option in about if option.verdict in (AVOID, HOLD)]
    if against:
        return sentence(f"Careful: {_first(against[0].against, option_words(against[0], answer.units))}")
    unsure = [option for option in about if option.verdict == ASK]
    if unsure:
        return sentence(f"One thing decides whether it is sound to {option_words(unsure[0], answer.units)}")
    reasons = [reason for option in about for reason in option.because]
    words = list_words(list(dict.fromkeys(option_words(option, answer.units) for option in about)))
    return sentence(f"Sound: {reasons[0].says}" if reasons else f"Nothing known stands against it: {words}")


def _until(option: Option, on: dt.date, word: str = "until") -> str:
    closes = day_of(option.closes)
    return f" {word} {day_words(closes, on)}" if closes and closes >= on else ""


def _first(reasons: tuple[Reason, ...], otherwise: str) -> str:
    return blocks_first(reasons)[0].says if reasons else otherwise
