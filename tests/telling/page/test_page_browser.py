"""The page in a real browser: a phone's width, an A4 print, and nothing asked of the network."""

import re
import shutil
import subprocess

import pytest
from page_sheets import ON, old_yew

from benchmate.talk.house import House
from benchmate.talk.recorded.sheet_of import sheet_of
from benchmate.telling.page import page_text

pytest.importorskip("fcntl", reason="the browser is spoken to over pipes that only POSIX has")
from page_browser import Browser, browser_path

pytestmark = pytest.mark.skipif(browser_path() is None, reason="no Chromium is installed here")
TREES = ("Knuckle", "Sprig", "Blank")
HEADINGS = ("To come back for", "Last decisions", "Its line of years", "Growth", "What the seasons cost", "To mind")
A4_POINTS = (595, 842)


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """The pages of the test garden, by tree."""
    home = tmp_path_factory.mktemp("pages")
    old_yew(home / "garden")
    house = House(home / "garden")
    for name in TREES:
        (home / f"{name}.html").write_text(page_text(sheet_of(house.garden.find(name), house, ON)), encoding="utf-8")
    return {name: home / f"{name}.html" for name in TREES}


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    one = Browser(tmp_path_factory.mktemp("browser") / "profile")
    yield one
    one.close()


@pytest.mark.parametrize("name", TREES)
@pytest.mark.parametrize("width", [320, 360, 800, 1400])
def test_nothing_runs_over_the_side(browser, pages, name, width):
    browser.open(pages[name], width)
    assert browser.ask("document.documentElement.scrollWidth") <= width
    over = """[...document.querySelectorAll('main *')].filter(one => !one.closest('svg *') &&
        one.getBoundingClientRect().right > innerWidth + 0.5).map(one => one.outerHTML.slice(0, 80))"""
    assert browser.ask(over) == []


@pytest.mark.parametrize("name", TREES)
def test_words_are_large_enough_on_a_phone(browser, pages, name):
    browser.open(pages[name], 360)
    words = "[...document.querySelectorAll('main *:not(svg *), footer *')]"
    assert min(browser.ask(f"{words}.map(one => parseFloat(getComputedStyle(one).fontSize))")) >= 12
    drawn = "[...document.querySelectorAll('svg text')].map(e => e.getBoundingClientRect().height)"
    assert all(height >= 11 for height in browser.ask(drawn))


@pytest.mark.parametrize("name", TREES)
def test_no_words_of_a_drawing_lie_on_one_another_or_leave_it(browser, pages, name):
    browser.open(pages[name], 360)
    clash = """[...document.querySelectorAll('svg')].flatMap(svg => {
        const frame = svg.getBoundingClientRect();
        const boxes = [...svg.querySelectorAll('text')].map(one => [one.textContent, one.getBoundingClientRect()]);
        const out = boxes.filter(([, b]) => b.left < frame.left - 1 || b.right > frame.right + 1);
        const on = boxes.flatMap(([a, b], n) => boxes.slice(n + 1).filter(([, c]) =>
            b.left < c.right - 1 && c.left < b.right - 1 && b.top < c.bottom - 4 && c.top < b.bottom - 4)
            .map(([c]) => a + ' on ' + c));
        return [...out.map(([words]) => words + ' leaves'), ...on];
    })"""
    assert browser.ask(clash) == []


@pytest.mark.parametrize("name", TREES)
def test_nothing_is_asked_of_the_network_and_no_script_ran(browser, pages, name):
    browser.requests.clear()
    browser.open(pages[name], 360)
    assert browser.requests == [pages[name].as_uri()]
    assert browser.ask("document.title").startswith(f"{name}: tree sheet")
    assert browser.ask("document.scripts.length + document.images.length") == 0


@pytest.mark.parametrize("name, most", [("Knuckle", 6), ("Sprig", 1), ("Blank", 1)])
def test_it_prints_on_a4_with_clean_breaks(browser, pages, name, most, tmp_path):
    browser.open(pages[name], 800)
    browser.print_pdf(tmp_path / "sheet.pdf")
    data = (tmp_path / "sheet.pdf").read_bytes()
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", data)
    assert 1 <= len(boxes) <= most
    for box in boxes:
        assert [float(side) for side in box] == pytest.approx(A4_POINTS, abs=1)
    if not shutil.which("pdftotext"):
        pytest.skip("A4 holds; no pdftotext is here to look at the breaks")
    told = subprocess.run(["pdftotext", "-layout", tmp_path / "sheet.pdf", "-"], capture_output=True, text=True).stdout
    leaves = [[row.strip() for row in leaf.split("\n") if row.strip()] for leaf in told.split("\f")[: len(boxes)]]
    assert all(leaves), "no leaf is empty"
    for leaf in leaves[:-1]:
        assert not leaf[-1].startswith(HEADINGS) and leaf[-1] not in ("Year", "Season", "Day"), leaf[-1]


def test_no_row_or_drawing_is_cut_by_the_end_of_a_leaf(browser, pages):
    browser.open(pages["Knuckle"], 800)
    browser.send("Emulation.setEmulatedMedia", media="print")
    try:
        styles = "[...document.querySelectorAll('tr, svg, li')].map(one => getComputedStyle(one).breakInside)"
        assert set(browser.ask(styles)) == {"avoid"}
        styles = "[...document.querySelectorAll('h2, caption, thead')].map(one => getComputedStyle(one).breakAfter)"
        assert set(browser.ask(styles)) == {"avoid"}
    finally:
        browser.send("Emulation.setEmulatedMedia", media="")


def test_the_print_is_light_on_ink(browser, pages, tmp_path):
    if not shutil.which("pdftoppm"):
        pytest.skip("no pdftoppm is here to count the ink")
    browser.open(pages["Knuckle"], 800)
    browser.print_pdf(tmp_path / "sheet.pdf")
    subprocess.run(["pdftoppm", "-r", "40", "-gray", tmp_path / "sheet.pdf", tmp_path / "leaf"], check=True)
    for leaf in sorted(tmp_path.glob("leaf*.pgm")):
        pixels = leaf.read_bytes().split(b"255\n", 1)[1]
        assert 1 - sum(pixels) / len(pixels) / 255 < 0.1, leaf.name
