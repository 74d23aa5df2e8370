"""Whatever is said, in whatever order: an answer or one plain refusal, and a record that still reads."""

import datetime as dt
import shutil

import pytest
from conftest import DEMO
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchmate.fault import UserError
from benchmate.garden import check_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import as_json, lay, tell

ON = dt.date(2026, 6, 14)
TALK = (
    "what now?", "two competing leaders", "the left one is 9 mm, the right one is 8 mm, which should I keep?", "1", "2",
    "take the second", "take option 9", "why?", "why two", "more", "why not wire it?", "what if it were weak?",
    "what if I leave it?", "no, the right one", "no, three leaves", "I meant the beech", "scratch that", "undo", "yes",
    "no", "same again on the right", "do that", "and the back one?", "cut that one off, leave the other", "it's weak",
    "wired the low branch on the left", "took the wire off", "won't defoliate it", "I'll repot it next spring",
    "remind me to check it in ten days", "remind me", "note: it squeaks", "let's do Gatepost", "next tree",
    "new tree, trident maple, call it Kettledrum", "new tree", "call it Gatepost", "goodbye", "help", "where am I",
    "what's due?", "which ones are weak?", "list the pines", "when did I last repot it?", "what did I do last summer?",
    "what wire for an 8 mm branch?", "what does petiole mean", "plan the next two years", "log it again",
    "in three weeks then?", "defoliateing it", "hornbeam is strong", "the yew is weak", "Ratchet", "before first frost",
    "shorten it to -3 leaves", "bend it 400 degrees", "", "unicorn dust", "41 C today", "feed it at 100 ppm",
)  # fmt: skip


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    home = tmp_path_factory.mktemp("any") / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


@pytest.fixture(scope="module")
def house(home):
    return House(home)


@given(st.lists(st.sampled_from(TALK), min_size=1, max_size=8), st.booleans(), st.booleans())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_talk_in_any_order_is_answered(house, home, statements, dry, at_hand):
    bench = Bench(house, ON, tree="Gatepost" if at_hand else None, dry=dry)
    for statement in statements:
        try:
            answer = bench.answer(statement)
        except UserError as refusal:
            assert "\n" not in str(refusal)
            continue
        told = lay(tell(answer), 40)
        assert as_json(answer, told)["told"] == told
        assert not (dry and as_json(answer, told)["logged"])
    assert check_garden(home) == []


@given(st.text(max_size=60))
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_text_is_answered_or_refused_in_one_line(house, text):
    bench = Bench(house, ON, tree="Gatepost", dry=True)
    try:
        told = lay(tell(bench.answer(text)), 40)
    except UserError as refusal:
        assert "\n" not in str(refusal)
    else:
        assert told.strip() and "\x1b" not in told
