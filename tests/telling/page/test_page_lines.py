"""The sheet at the prompt: it fits narrow and wide screens, bars to scale, and reads in words alone."""

import pytest
from page_parts import text_of, tree_of
from page_sheets import HOSTILE, ON, entry, old_yew, sheet

from benchmate.talk.house import House
from benchmate.talk.recorded.sheet_of import sheet_of
from benchmate.telling import lay
from benchmate.telling.page import SeasonSpent, growth_lines, page_text, sheet_lines, spent_lines

SIZES = [
    entry("2022-03-10", "seen", measures={"diameter_mm": 9.0}),
    entry("2023-03-10", "seen", measures={"diameter_mm": 52.0}),
    entry("2024-03-10", "seen", measures={"diameter_mm": 104.0}),
]
SEASONS = (
    SeasonSpent("2025", ON, 0.2, 0.4, most=0.25, serious=(("repotted it", ON),)),
    SeasonSpent("2026", ON, most=0.25, now=True),
)


@pytest.fixture(scope="module")
def yew(tmp_path_factory):
    home = tmp_path_factory.mktemp("lines") / "garden"
    old_yew(home)
    house = House(home)
    return sheet_of(house.garden.find("Knuckle"), house, ON)


def rows(lines, width=None):
    return lay(lines, width).split("\n")


@pytest.mark.parametrize("width", [40, 120])
@pytest.mark.parametrize("plain", [False, True], ids=["bars", "words"])
def test_no_row_passes_the_width_but_for_a_word_longer_than_it(yew, width, plain):
    laid = rows(sheet_lines(yew, width, plain=plain), width)
    assert len(laid) > 60
    assert all(len(row) <= width or max(map(len, row.split())) > width // 2 for row in laid)


@pytest.mark.parametrize("width", [40, 120])
@pytest.mark.parametrize("plain", [False, True], ids=["bars", "words"])
def test_no_row_of_common_words_passes_the_width(width, plain):
    laid = rows(sheet_lines(sheet(SIZES, seasons=SEASONS), width, plain=plain), width)
    assert len(laid) > 25 and max(map(len, laid)) <= width


@pytest.mark.parametrize("width", [20, 40, 80, 120, None])
def test_bars_are_to_scale_and_say_their_scale(width):
    told = rows(growth_lines(SIZES, width=width), width)
    bars = [row for row in told if "#" in row and "Each" not in row]
    label = next(row for row in rows(growth_lines(SIZES, width=width)) if "Each #" in row)
    each = float(label.split(" is ")[1].split(" ")[0])
    assert [row.count("#") for row in bars] == [max(1, round(size / each)) for size in (9, 52, 104)]
    assert "counted from 0" in label


def test_a_row_of_growth_reads_year_size_bar():
    told = [row.strip() for row in rows(growth_lines(SIZES, width=40), 40)]
    assert told[-4:-1] == ["2022    9 mm  ##", "2023   52 mm  ##########", "2024  104 mm  #####################"]


def test_several_sizes_in_a_year_are_told_by_day():
    twice = [*SIZES, entry("2024-09-10", "seen", measures={"diameter_mm": 108.0})]
    assert any("10 September 2024" in row for row in rows(growth_lines(twice)) if "#" in row)


def test_many_sizes_are_thinned_and_it_says_so():
    many = [entry(f"{2000 + n // 2}-0{1 + n % 2}-01", "seen", measures={"diameter_mm": 20.0 + n}) for n in range(40)]
    told = rows(growth_lines(many))
    assert sum("#" in row for row in told if "Each" not in row) == 12
    assert "The last of each year, of 40 measurements." in [row.strip() for row in told]


def test_words_alone_have_no_bars_and_lose_nothing_else(yew):
    plain = rows(sheet_lines(yew, plain=True))
    assert not any("##" in row or row.lstrip().startswith(("- ", "! ")) for row in plain)
    with_bars = " ".join(rows(sheet_lines(yew)))
    told = [row.strip() for row in rows(spent_lines(yew.seasons, plain=True))]
    assert all(row in with_bars for row in told)


def test_seasons_are_told_in_words_then_drawn():
    told = [row.strip() for row in rows(spent_lines(SEASONS, width=40))]
    at = told.index("leaf    20 %  ####")
    assert told[at + 1] == "roots   40 %  ########"
    assert told[at - 1].startswith(
        "2025: 20 % of the leaf, of at most 25 %; 40 % of the roots; serious work: repotted it"
    )
    assert "Each # is 5 %." in told


@pytest.mark.parametrize("words", HOSTILE, ids=range(len(HOSTILE)))
def test_words_of_the_grower_cannot_move_the_cursor(words):
    told = lay(sheet_lines(sheet([entry("2026-05-01", "left", words, work=[{"work": "remove"}], reason=words)])), 80)
    assert not set(told) & {chr(code) for code in (*range(9), *range(11, 32), 127, 0x202E, 0x2066, 0x200B)}


def test_lines_and_page_tell_the_same(yew):
    page = text_of(tree_of(page_text(yew)).find("body"))
    for line in sheet_lines(yew, plain=True)[8:]:
        words = " ".join(line.words.replace("! ", "").split()).rstrip(".")
        if line.lead.strip(" :").isdigit() or line.role != "reason" or " mm" in words:
            continue
        assert words.casefold() in page.casefold() or words.casefold()[:40] in page.casefold(), line
