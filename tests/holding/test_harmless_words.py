"""Escape sequences, script tags and line ends in a garden's files do no harm: on screen, in HTML, in a calendar."""

import json
import re

import pytest

EVIL = "\x1b]0;owned\x07\x1b[2J<script>alert(1)</script>\"'><img src=x onerror=alert(2)>\u202e\r\nBEGIN:VALARM\x9b31m"
ON = ("--on", "2026-06-14")


def toml(words):
    """The words as a TOML string."""
    return json.dumps(words).replace("\x7f", "\\u007f")


@pytest.fixture
def evil_garden(tmp_path):
    home = tmp_path / "evil"
    tree = home / "maple"
    tree.mkdir(parents=True)
    (home / "garden.toml").write_text(
        f'[place]\nname = {toml("Yard " + EVIL)}\nlatitude = 52.0\nlast_frost = "04-28"\nfirst_frost = "10-18"\n'
    )
    (tree / "tree.toml").write_text(
        f'name = {toml("Maple " + EVIL)}\nspecies = "Acer campestre"\norigin = {toml(EVIL)}\nphase = "structure"\n'
        'health = "healthy"\nsince = 2023-03-04\n'
    )
    entries = [
        ("2026-03-14-aa", "done", f'work = [{{ work = "repot", share = 0.33, note = {toml(EVIL)} }}]'),
        ("2026-05-01-bb", "plan", f'follow = [{{ work = "check", on = 2026-06-16, says = {toml(EVIL)} }}]'),
        ("2026-06-01-cc", "seen", f'facts = [{{ kind = "finding", value = {toml(EVIL)} }}]\nreason = {toml(EVIL)}'),
        ("2026-06-02-dd", "left", f'work = [{{ work = "leave", part = {toml(EVIL)} }}]\nphoto = {toml(EVIL)}'),
        ("2026-06-03-ee", "note", f"refused = [{toml(EVIL)}]"),
    ]  # fmt: skip
    (tree / "journal.toml").write_text(
        "\n".join(
            f'[[entry]]\nid = "{id}"\nat = {id[:10]}\nkind = "{kind}"\nsaid = {toml(EVIL)}\n{more}\nend = "{id}"\n'
            for id, kind, more in entries
        )
    )
    return home


COMMANDS = [
    ("say", "what now", *ON, "--dry"),
    ("say", "what did I do", *ON),
    ("say", "it is weak, can I halve the leaves", *ON),
    ("say", "scratch that", *ON),
    ("due", "--days", "30", *ON),
    ("record", "maple", *ON),
    ("check",),
    ("words",),
    ("sheet", "maple", "--text", *ON),
    ("calendar", *ON),
    ("export", "maple"),
]


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_no_control_character_reaches_the_screen(program, evil_garden, words):
    done = program(*words, "--garden", str(evil_garden))
    assert done.returncode in (0, 1), done.stderr
    assert "Traceback" not in done.stderr and "slip in benchmate" not in done.stderr
    for told in (done.stdout, done.stderr):
        # a pipe gets what a terminal gets but for its width
        assert not re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", told), repr(told)


def test_the_talk_shows_none_either(program, evil_garden):
    said = "what now\nwhy 1\nwhat did I do\nwhat's due\nlist my trees\nmore\n"
    done = program("--garden", str(evil_garden), *ON, input=said)
    assert done.returncode == 0, done.stderr
    assert not re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e]", done.stdout), repr(done.stdout)


def test_the_page_holds_no_markup_of_the_journals(program, evil_garden):
    done = program("sheet", "maple", "--out", "-", *ON, "--garden", str(evil_garden))
    assert done.returncode == 0, done.stderr
    page = done.stdout.casefold()
    assert "alert(1)" in page, "the words themselves are shown"
    assert "<script" not in page and "<img" not in page
    for tag in re.findall(r"<[^>]*>", page):
        # xmlns names a standard and fetches nothing
        plain = re.sub(r'xmlns(:\w+)?="[^"]*"', "", tag)
        assert not re.search(r"\bon\w+=|javascript:|https?:|\bsrc=", plain), tag


def test_an_event_of_the_calendar_stays_one(program, evil_garden):
    done = program("calendar", *ON, "--garden", str(evil_garden))
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert lines.count("BEGIN:VALARM") == 0
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") >= 1


@pytest.mark.parametrize("words", [("say", f"note: {EVIL}"), ("hear", EVIL), ("record", EVIL), ("rules", "show", EVIL)])
def test_such_words_on_the_command_line_are_refused_or_told_harmlessly(program, garden, words):
    done = program(*words, "--garden", str(garden), *ON)
    assert done.returncode in (0, 1)
    assert "Traceback" not in done.stderr and "slip in benchmate" not in done.stderr
    assert not re.search(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]", done.stdout + done.stderr)
    if done.returncode:
        assert done.stderr.startswith("benchmate: ") and done.stderr.count("\n") == 1


def test_a_garden_saved_on_windows_reads_as_any(program, garden):
    """Line ends of two characters, in every file of the garden and in a file of statements."""
    asked = [("say", "second flush, two competing leaders, what now", "--tree", "Ratchet", *ON, "--dry", "--json")]
    asked += [("due", *ON, "--json"), ("record", "Ratchet", "--json"), ("check",)]
    before = [program(*words, "--garden", str(garden)) for words in asked]
    for path in garden.rglob("*.toml"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    after = [program(*words, "--garden", str(garden)) for words in asked]
    assert [(one.returncode, one.stdout) for one in after] == [(one.returncode, one.stdout) for one in before]
    program("say", "fed it", "--tree", "Ratchet", *ON, "--garden", str(garden))
    assert program("check", "--garden", str(garden)).stdout == ""
    lines = garden / "statements.txt"
    lines.write_bytes(b"larch is weak\r\nrepotted it in March\r\n")
    heard = program("hear", "--file", str(lines), *ON, "--json").stdout.splitlines()
    assert [json.loads(line)["said"] for line in heard] == ["larch is weak", "repotted it in March"]
