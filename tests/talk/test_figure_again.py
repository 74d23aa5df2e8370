"""A figure question is answered with what it asked for, or asked again with one thing changed."""

import tomllib
from pathlib import Path

import pytest

TALKS = tomllib.loads((Path(__file__).parent / "figure_again.toml").read_text(encoding="utf-8"))["talk"]


@pytest.mark.parametrize("talk", TALKS, ids=lambda talk: " / ".join(talk["say"]))
def test_a_figure_question_goes_on(talk, bench):
    *_, answer = [bench.answer(statement) for statement in talk["say"]]
    figures = answer.advice.figures if answer.advice else ()
    if talk.get("other"):
        assert not figures
        return
    assert figures, f"asks {[ask.says for ask in answer.asks]}"
    (figure,) = figures
    assert (figure.figure, figure.unit) == (talk["figure"], talk["unit"])
    assert figure.value == pytest.approx(talk["value"], rel=0.02)
    assert not answer.logged
