"""The numbers that a rule's limits speak of, worked out only when a rule asks. A number that is not known is None."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

from benchmate.hearing.reading import Work
from benchmate.practice.almanac import Almanac
from benchmate.practice.book import RuleBook
from benchmate.practice.budget import crown_share, foliage_taken, heavy_works, is_heavy, root_taken, share_of, takes
from benchmate.practice.facts import SAID, Done, Facts, Known
from benchmate.practice.places import is_placed, spot_of, spots_meet
from benchmate.practice.target import DONE, Target

Number = tuple[float | None, str]
Reckoner = Callable[[Target, Facts, Almanac, RuleBook], Number]


def quantity(name: str, target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """The value of a quantity, and a remark on where it comes from (empty where it was said).

    Raises ValueError for a name that is no quantity; the check of the rules names such ones before.
    """
    if name.startswith("days_since_"):
        return _days_since(name.removeprefix("days_since_"), facts, almanac, book)
    if name in _RECKONED:
        return _RECKONED[name](target, facts, almanac, book)
    if name in MEASURES:
        return _measure(name, target, facts, book), ""
    raise ValueError(f"'{name}' is not a quantity")


def _measure(name: str, target: Target, facts: Facts, book: RuleBook) -> float | None:
    """What was said of the work, else of something at its place, else of the whole where it is the whole's.

    A diameter that is told of no part is the trunk's: a branch's work never takes it. One that is said just now, beside
    work that names no part, is that of "it".
    """
    own = _own_measure(name, target, facts, book)
    if own is not None:
        return own
    whose = book.places.get("measured", {}).get(name)
    part = target.spot.part or book.places.get("work_part", {}).get(target.work)
    if whose is None or (part == whose and not is_placed(target.spot)):
        return facts.measures.get(name)
    if part is None and not is_placed(target.spot):
        return facts.loose.get(name)
    return _recorded(name, target, facts, book)


def _recorded(name: str, target: Target, facts: Facts, book: RuleBook) -> float | None:
    """What the record says of the one thing that may be meant, or None where there are several or none."""
    rows = [known for known in facts.measured if name in known.measures]
    newest = {known.spot: known for known in sorted(rows, key=lambda known: known.on or "")}
    near = [known for known in newest.values() if spots_meet(known.spot, target.spot, book.places)]
    return near[0].measures[name] if len(near) == 1 else None


def _own_measure(name: str, target: Target, facts: Facts, book: RuleBook) -> float | None:
    if name in target.measures:
        return target.measures[name]
    for kind in ("candidate", "finding"):
        for known in facts.of(kind):
            if (
                name in known.measures
                and not known.denied
                and spots_meet(spot_of(known, book.places), target.spot, book.places)
            ):
                return known.measures[name]
    return None


def _share(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    share, said = share_of(target.work, target.measures, book)
    return share, "" if said else " (taken as usual)"


def _dose(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    taken = foliage_taken(facts, book)
    if takes(target.work, book) != "foliage":
        return taken, " taken this season"
    share, said = crown_share(target.work, target.measures, target.spot, book)
    if share is None:
        return None, ""
    return taken + share, f" with {taken:.2f} taken this season" + ("" if said else ", share taken as usual")


def _root_share(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    taken = root_taken(facts, book)
    if takes(target.work, book) != "root":
        return taken, ""
    share, said = share_of(target.work, target.measures, book)
    return (None, "") if share is None else (taken + share, "" if said else " (taken as usual)")


def _compared(facts: Facts) -> list[Known]:
    """The things compared by thickness: those of the statement where it names two, else the newest at each place."""
    widths = [known for known in facts.of("candidate") if "diameter_mm" in known.measures]
    said = [known for known in widths if known.origin == SAID]
    if len(said) > 1:
        return said
    newest = {known.spot: known for known in sorted(widths, key=lambda known: known.on or "")}
    return [known for known in widths if newest[known.spot] is known]


def _union_ratio(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Smaller over larger of the two thickest things compared."""
    widths = sorted((known.measures["diameter_mm"] for known in _compared(facts)), reverse=True)
    if len(widths) < 2:
        return facts.measures.get("union_ratio"), ""
    return widths[1] / widths[0], f" ({widths[1]:g} to {widths[0]:g} mm)"


def _rival_ratio(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """The diameter of the one at the target's place over that of the thickest other: over 1, this is the thicker."""
    widths = _compared(facts)
    own = [known for known in widths if is_placed(target.spot) and spots_meet(known.spot, target.spot, book.places)]
    others = [known.measures["diameter_mm"] for known in widths if known not in own]
    if len(own) != 1 or not others:
        return None, ""
    mine, theirs = own[0].measures["diameter_mm"], max(others)
    return mine / theirs, f" ({mine:g} to {theirs:g} mm)"


def _branch_ratio(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    branch = _own_measure("diameter_mm", target, facts, book)
    # a diameter of no part is that of the tree: its trunk
    trunk = facts.measures.get("diameter_mm") or facts.measures.get("base_mm")
    return (None, "") if branch is None or not trunk else (branch / trunk, f" ({branch:g} to {trunk:g} mm)")


def _age(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    return facts.measures.get("age_years"), ""


def _days_since(work: str, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    works = book.group(work)
    days = [done for done in facts.done if done.work in works and not done.denied]
    if not days:
        return None, ""
    last = days[0]
    # between two days the rule must hold for both, so only an exact day answers
    return (float((almanac.on - last.first).days), f" ({last.told})") if last.first == last.last else (None, "")


def _before(target: Target, facts: Facts) -> Facts:
    """What work that was done just now finds: all but itself, and what belongs to the same visit."""
    return facts.without_now(target.work) if target.how == DONE else facts


def _heavy_works(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Serious works of the season beside this one: those done, and one of another kind named before it just now."""
    done = heavy_works(_before(target, facts), book)
    before = list(itertools.takewhile(lambda work: work.work != target.work, facts.meant))
    if len(before) == len(facts.meant):
        before = []  # this work was not named; what was named is weighed by itself
    meant = [work for work in before if work.work and takes(work.work, book) != takes(target.work, book)]
    return float(done + any(_serious(work, facts, book) for work in meant)), " this season"


def _heavy_cut_days(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Days since the crown was last cut hard, whatever this work adds; without end where the record holds no such."""
    kept = _before(target, facts).done
    cuts = [done for done in kept if not done.denied and takes(done.work, book) == "foliage" and is_heavy(done, book)]
    if not cuts:
        return math.inf, ""
    return float((almanac.on - max(done.last for done in cuts)).days), " days"


def _roots_beside(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Works on the roots that this very statement names beside this one, asked about, meant or done."""
    works = {str(work.work) for work in facts.meant} | {done.work for done in facts.done if done.now}
    return float(len((works & set(book.group("roots"))) - {target.work})), " in the same visit"


def _cuts_compared(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Cuts between which and this work a choice is asked for."""
    return float(len((set(facts.compared) & set(book.group("cutting"))) - {target.work})), " to choose from"


def _bloom_end(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """Days to the end of the bloom that is open or comes next, by the date; None where that is not known of a kind."""
    window = almanac.window("flowering", almanac.on)
    return (
        (None, "") if window is None or window.closes is None else (float((window.closes - almanac.on).days), " days")
    )


def _kept_at(target: Target, facts: Facts, almanac: Almanac, book: RuleBook) -> Number:
    """The warmth of the place where the tree is to stand, told of that place and not of the weather, in deg C."""
    return target.measures.get("temperature_c"), " C"


def _serious(work: Work, facts: Facts, book: RuleBook) -> bool:
    share = work.measures.get("share")
    return is_heavy(Done(str(work.work), facts.on, facts.on, share=share, manner=work.manner), book)


_RECKONED: dict[str, Reckoner] = {
    "share": _share,
    "dose": _dose,
    "root_share": _root_share,
    "union_ratio": _union_ratio,
    "rival_ratio": _rival_ratio,
    "branch_ratio": _branch_ratio,
    "age_years": _age,
    "frost_days": lambda target, facts, almanac, book: (almanac.frost_days(), " days"),
    "spring_frost_days": lambda target, facts, almanac, book: (almanac.spring_frost_days(), " days"),
    "frost_season_days": lambda target, facts, almanac, book: (almanac.frost_season_days(), " days"),
    "day_length_h": lambda target, facts, almanac, book: (almanac.day_length_h(), " h"),
    "heavy_works": _heavy_works,
    "heavy_cut_days": _heavy_cut_days,
    "kept_at_c": _kept_at,
    "bloom_end_days": _bloom_end,
    "roots_beside": _roots_beside,
    "cuts_compared": _cuts_compared,
}
MEASURES = (
    "diameter_mm",
    "length_mm",
    "height_mm",
    "width_mm",
    "depth_mm",
    "leaves",
    "pairs",
    "buds",
    "temperature_c",
    "angle_deg",
    "volume_l",
    "ppm",
    "days",
    "every_days",  # from one time to the next, where the work is said to come again
    "gap_mm",
    "every_days",
)
QUANTITIES = (*_RECKONED, *MEASURES)
