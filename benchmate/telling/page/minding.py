"""What to mind with a tree of its kind, whatever its state: people first, then the law, then the tree."""

from __future__ import annotations

from benchmate.telling.depth import source_words
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.told import ordered
from benchmate.telling.wording import sentence

NO_SPECIES = "The species was not told, so nothing can be said of its kind. Tell it, as in: Gatepost is a field maple."


def caution_rows(sheet: Sheet) -> list[tuple[str, str]]:
    """Each caution with what it rests on."""
    return [(sentence(one.says), source_words(one.source, one.mark, sheet.sources)) for one in ordered(sheet.cautions)]
