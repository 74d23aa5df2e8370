"""The talk at a terminal: its prompt joins itself by a pair of sockets of this process alone, and reaches nobody."""

import json
import os
import sys
from pathlib import Path

import pytest

pexpect = pytest.importorskip("pexpect")
WATCHED = Path(__file__).with_name("watched.py")
# what Python's event loop does to wake itself: a pair of ends within the process, bound to no address
WITHIN = {"socket.__new__"}


def test_the_prompt_reaches_nobody(tmp_path, garden):
    report = tmp_path / "report.jsonl"
    env = os.environ | {"HOME": str(tmp_path), "TERM": "xterm", "PYTHONDONTWRITEBYTECODE": "1"}
    words = [str(WATCHED), str(report), "--", "--garden", str(garden), "--on", "2026-06-14"]
    talk = pexpect.spawn(sys.executable, words, env=env, timeout=60, encoding="utf-8", dimensions=(30, 100))
    talk.expect("goodbye")
    talk.expect(">")
    talk.send("what's due on Ratchet\r")
    talk.expect("Due|due")
    talk.send("goodbye\r")
    talk.expect(pexpect.EOF)
    told = [json.loads(line) for line in report.read_text().splitlines()]
    assert {event for what, event in told if what == "socket"} <= WITHIN
    assert [event for what, event in told if what == "start"] == []
    astray = [path for what, path in told if what == "write" and not Path(path).is_relative_to(garden)]
    assert [path for path in astray if "compiled" not in Path(path).parts and path != "/dev/tty"] == []
