"""Where the rules stand: the folder asked for, the one inside the installed package, or the one of a checkout."""

from __future__ import annotations

from pathlib import Path

from benchmate.fault import UserError
from benchmate.value import dataclass

_PACKAGE = Path(__file__).resolve().parent.parent


@dataclass(frozen=True, slots=True)
class RuleFolders:
    """The built-in rules and the folders laid over them, lowest first: a later folder overrides an earlier one by
    id."""

    base: Path
    overlays: tuple[Path, ...] = ()

    @property
    def all(self) -> tuple[Path, ...]:
        return (self.base, *self.overlays)


def find_rules(asked: Path | None = None, garden: Path | None = None) -> RuleFolders:
    """The rule folders for one start.

    asked: the folder of `--rules`, or None. garden: a garden's folder, whose own `rules/` is laid over if it is there.
    Raises UserError where no rules can be found.
    """
    overlays = tuple(folder for folder in [garden / "rules" if garden else None] if folder and folder.is_dir())
    places = [asked] if asked else [_PACKAGE / "rules", _PACKAGE.parent / "rules"]
    for place in places:
        if place.is_dir():
            # a garden that is itself asked for as the rules must not be laid over itself
            return RuleFolders(place, tuple(o for o in overlays if o.resolve() != place.resolve()))
    told = asked or places[-1]
    raise UserError(f"{told}: no folder of rules here; give one with --rules DIR")
