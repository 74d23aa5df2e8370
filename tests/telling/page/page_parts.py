"""The page read back: as XML, which it is, and as a browser's HTML parser sees it."""

import xml.etree.ElementTree as ET
from html.parser import HTMLParser


def tree_of(page):
    """The page's elements. A page with one stray sign of anybody's words would not parse."""
    return ET.fromstring(page.split("\n", 1)[1])


_INLINE = ("strong", "span", "q", "bdi")


def text_of(element):
    """All words in an element, spaces as plain ones; blocks stand apart."""
    return " ".join("".join(_pieces(element)).replace("\xa0", " ").split())


def _pieces(element):
    yield element.text or ""
    for child in element:
        yield from _pieces(child)
        yield "" if child.tag in _INLINE else " "
        yield child.tail or ""


def section(page, id):
    """The section under the heading of this id."""
    return next(one for one in tree_of(page).iter("section") if one.get("aria-labelledby") == id)


class _Tags(HTMLParser):
    def __init__(self):
        super().__init__()
        self.tags, self.marks = [], set()

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.marks |= {name for name, _ in attrs}

    handle_startendtag = handle_starttag


def tags_of(page):
    """The names of all elements in order, and of all attributes, as a browser would take them."""
    reader = _Tags()
    reader.feed(page)
    return reader.tags, reader.marks
