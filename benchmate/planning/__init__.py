"""In: a tree, its journal, a place, a day, the rules. Out: works laid over the coming seasons, forecasts, and what the
journals taught. It searches under the rule base's own word, writes nothing, and knows no horticulture but the files of
rules/planning.
"""

from benchmate.planning.check import plan_faults
from benchmate.planning.lay import MOST_YEARS, lay_plan
from benchmate.planning.lessons import Lesson, taught, taught_by_taxon
from benchmate.planning.next_days import next_days
from benchmate.planning.outlook import Outlook, tips_after
from benchmate.planning.plan import Item, LeftOut, Move, Plan
from benchmate.planning.wishes import PlanBook, compile_plan_book, plan_book_as_plain, plan_book_from_plain

__all__ = [
    "MOST_YEARS",
    "Item",
    "LeftOut",
    "Lesson",
    "Move",
    "Outlook",
    "Plan",
    "PlanBook",
    "compile_plan_book",
    "lay_plan",
    "next_days",
    "plan_book_as_plain",
    "plan_book_from_plain",
    "plan_faults",
    "taught",
    "taught_by_taxon",
    "tips_after",
]
