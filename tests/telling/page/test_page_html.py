"""The page as a document: whole in itself, harmless whatever was said, fit for a screen reader."""

import itertools
import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from page_parts import section, tags_of, text_of, tree_of
from page_sheets import HOSTILE, ON, entry, sheet

from benchmate.garden.record import Tree
from benchmate.practice.advice import Caution
from benchmate.telling.page import SeasonSpent, page_text
from benchmate.telling.page.style import STYLE

CAUTIONS = (Caution("about", "tree", "It bleeds when cut in spring.", "body-2001", "published"),)
SEASONS = (
    SeasonSpent("2025", ON.replace(year=2024), 0.2, 0.25, most=0.1, serious=(("repotted it", ON.replace(year=2025)),)),
    SeasonSpent("2026", ON.replace(year=2025), most=0.25, now=True),
)


def whole(said="fed it", name="Gatepost", species="Acer campestre"):
    """A page with something in every section, and these words wherever words can stand."""
    tree = Tree(name, "gatepost", species, said, said, said, ON, {"length_mm": 300.0}, {"height_mm": 410.0})
    entries = [
        entry("2024-03-10", "seen", said, measures={"diameter_mm": 58.0}),
        entry("2025-03-10", "seen", said, measures={"diameter_mm": 64.0}, photo=said),
        entry("2025-06-08", "done", said, work=[{"work": "repot"}], reason=said, refused=[said]),
        entry("2025-06-09", "left", said, work=[{"work": said, "part": said, "manner": [said]}], number=1),
        entry("2025-06-10", "note", said),
        entry("2025-06-11", "seen", said, facts=[{"kind": "finding", "value": said, "side": said}]),
        entry("2025-06-12", "seen", said, facts=[{"kind": "health", "value": said}, {"kind": "phase", "value": said}]),
    ]
    sources = {"body-2001": {"by": "A body", "year": 2001}}
    return page_text(sheet(entries, tree=tree, seasons=SEASONS, cautions=CAUTIONS, sources=sources, lessons=(said,)))


def skeleton(page):
    """The elements in order, but for those that come and go with how many words there are."""
    return [tag for tag in tags_of(page)[0] if tag not in ("q", "bdi", "p")]


PLAIN = whole()
WORDS = st.text(min_size=1, max_size=60)


def test_the_page_names_the_tree_in_its_title_and_first_heading():
    page = tree_of(PLAIN)
    assert page.get("lang") == "en"
    assert text_of(page.find("head/title")) == "Gatepost: tree sheet, 14 June 2026"
    assert [text_of(one) for one in page.iter("h1")] == ["Gatepost"]
    assert "Acer campestre, field maple" in text_of(page.find("body/main/header"))


def test_every_section_has_its_heading_and_headings_skip_no_level():
    page = tree_of(PLAIN)
    headings = [one for one in page.iter() if re.fullmatch("h[1-6]", one.tag)]
    assert [one.tag for one in headings] == ["h1", *["h2"] * (len(headings) - 1)]
    ids = {one.get("id") for one in headings}
    sections = [one.get("aria-labelledby") for one in page.iter("section")]
    assert sections == ["waiting", "decided", "years", "growth", "spent", "taught", "minding"]
    assert set(sections) <= ids


def test_ids_are_unique_and_every_reference_has_its_aim():
    page = tree_of(PLAIN)
    ids = [one.get("id") for one in page.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    aims = [one.get(key) for one in page.iter() for key in ("aria-labelledby", "aria-describedby") if one.get(key)]
    assert aims and set(aims) <= set(ids)


def test_every_drawing_has_title_and_description_or_is_hidden_from_readers():
    drawings = list(tree_of(PLAIN).iter("svg"))
    told = [one for one in drawings if one.get("aria-hidden") != "true"]
    assert len(told) >= 4
    for one in told:
        assert one.get("role") == "img"
        assert text_of(one.find("title")) and text_of(one.find("desc"))


def test_every_table_names_its_columns_and_rows():
    tables = list(tree_of(PLAIN).iter("table"))
    assert len(tables) == 3
    for table in tables:
        assert all(one.get("scope") == "col" for one in table.find("thead").iter("th"))
        for row in table.find("tbody"):
            assert row[0].tag == "th" and row[0].get("scope") == "row" and len(row) == 2


def test_what_the_charts_draw_stands_beside_them_in_words():
    growth, spent = text_of(section(PLAIN, "growth")), text_of(section(PLAIN, "spent"))
    assert "10 March 2024 58 mm 10 March 2025 64 mm" in growth
    assert "20 % of the leaf, beyond the 10 % that it bears; 25 % of the roots" in spent
    assert "serious work: repotted it (14 June 2025)" in spent
    assert "no leaf taken yet, of at most 25 %" in spent


def test_a_caution_says_what_it_rests_on():
    assert "It bleeds when cut in spring. (published: A body 2001)" in text_of(section(PLAIN, "minding"))


def test_nothing_is_fetched_and_nothing_runs():
    tags, marks = tags_of(PLAIN)
    assert not {"script", "link", "img", "iframe", "object", "embed", "image", "use", "a", "base", "form"} & set(tags)
    assert not {"src", "href", "xlink:href", "srcset", "style", "action"} & marks
    assert not [mark for mark in marks if mark.startswith("on")]
    assert "url(" not in PLAIN and "@import" not in PLAIN and "://" not in PLAIN
    policies = [one.get("content") for one in tree_of(PLAIN).iter("meta") if one.get("http-equiv")]
    assert len(policies) == 1 and policies[0].startswith("default-src 'none';")


@pytest.mark.parametrize("said", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_stay_words(said):
    page = whole(said, said)
    assert skeleton(page) == skeleton(PLAIN)
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]", page)


@example("<b>")
@example("]]>")
@example("\ud800")
@example("\x00\ufffe")
@given(WORDS)
def test_no_words_whatever_change_the_page_around_them(said):
    page = whole(said, said, said)
    assert skeleton(page) == skeleton(PLAIN)
    assert tags_of(page)[1] == tags_of(PLAIN)[1]
    tree_of(page)
    page.encode("utf-8")


def test_the_same_sheet_gives_the_same_page():
    assert whole() == PLAIN


def _light(colour):
    """Relative luminance of a colour, 0 to 1 (WCAG 2.2)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def _contrast(one, other):
    light, dark = sorted((_light(one), _light(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_every_colour_of_words_stands_out_from_the_paper():
    inks = set(re.findall(r"[ ;{]color: (#\w{6})", STYLE))
    inks |= {one.get("fill") for one in tree_of(PLAIN).iter("text")}
    assert len(inks) >= 2
    assert all(_contrast(ink, "#ffffff") >= 4.5 for ink in inks)


def test_bars_differ_by_more_than_colour():
    drawn = section(PLAIN, "spent").findall(".//tbody//svg")[0]
    leaf, roots = drawn.findall("rect")
    assert leaf.get("fill") != roots.get("fill")
    assert any(float(roots.get("y")) == float(one.get("d").split(" ")[1].split("v")[0]) for one in drawn.iter("path"))


def test_a_tree_of_which_nothing_is_known_says_so_in_every_section():
    page = page_text(sheet(tree=Tree("Blank", "blank")))
    told = {id: text_of(section(page, id)) for id in ("waiting", "decided", "years", "growth", "spent", "minding")}
    assert told["waiting"].endswith("Nothing waits.")
    assert told["decided"].endswith("None in the record yet.")
    assert told["years"].endswith("Nothing is in its record yet.")
    assert "No measurement of trunk or height" in told["growth"]
    assert told["minding"].startswith("To mind with its kind The species was not told")
    assert not list(tree_of(page).iter("svg"))


def test_long_records_stay_of_a_size_to_send():
    entries = [
        entry(f"{year}-{month:02d}-{day:02d}", work=[{"work": "feed"}], said="fed it", number=day)
        for year, month, day in itertools.product(range(2000, 2026), range(3, 10), range(1, 28))
    ]
    assert len(page_text(sheet(entries)).encode()) < 200_000
