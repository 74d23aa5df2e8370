"""The sheet: one tree, its record and what its seasons cost in; one self-contained page, or lines for the prompt, out.

It reads values alone, asks no clock and opens no file; nothing in a journal can become markup or move a cursor.
"""

from benchmate.telling.page.growth_lines import growth_lines
from benchmate.telling.page.html_page import page_text
from benchmate.telling.page.sheet import SeasonSpent, Sheet
from benchmate.telling.page.sheet_lines import sheet_lines
from benchmate.telling.page.spent_lines import spent_lines

__all__ = ["SeasonSpent", "Sheet", "growth_lines", "page_text", "sheet_lines", "spent_lines"]
