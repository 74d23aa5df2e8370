"""What is known of a taxon: its own cells, then those of its genus. A cell that neither has is unknown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Plain = dict[str, Any]
_KEPT = ("names", "groups", "traits", "caution", "hazard")


def own_cells(tables: Mapping[str, Plain]) -> dict[str, Plain]:
    """taxon -> what its own file says, plain. The values of `traits` may be cells or bare values."""
    out: dict[str, Plain] = {}
    for name, table in sorted(tables.items()):
        if name.startswith("species/") and isinstance(table.get("taxon"), str):
            out[table["taxon"]] = {key: table[key] for key in _KEPT if table.get(key)}
    return out


class Taxa(Mapping[str, Plain]):
    """taxon -> {"lineage", "groups", "traits", "cautions", "hazard", "names", "some"}, inherited when it is looked up.

    traits: name -> {"is": value, "mark" or "source", "from": the taxon whose file it stands in}. cautions: its own
    before those of the genus. some: groups that only some species of a genus are in; of the genus alone they are not
    known.
    """

    def __init__(self, own: Mapping[str, Plain]) -> None:
        self.own = own
        self._known: dict[str, Plain] = {}
        self._below: dict[str, set[str]] | None = None

    def __getitem__(self, taxon: str) -> Plain:
        if taxon not in self.own:
            raise KeyError(taxon)
        if taxon not in self._known:
            self._known[taxon] = self._inherited(taxon)
        return self._known[taxon]

    def __iter__(self) -> Iterator[str]:
        return iter(self.own)

    def __len__(self) -> int:
        return len(self.own)

    def _inherited(self, taxon: str) -> Plain:
        lineage = lineage_of(taxon)
        out: Plain = {"lineage": [t for t in lineage if t in self.own], "groups": [], "traits": {}, "cautions": []}
        # from the genus down, so that the nearest cell stands
        for step in reversed(lineage):
            table = self.own.get(step, {})
            out["groups"] += [group for group in table.get("groups", ()) if group not in out["groups"]]
            for name, cell in table.get("traits", {}).items():
                out["traits"][name] = {**(cell if isinstance(cell, dict) else {"is": cell}), "from": step}
            out["cautions"] = [*table.get("caution", ()), *out["cautions"]]
            for key in ("hazard", "names"):
                if key in table:
                    out[key] = table[key]
        if len(lineage) == 1 and (below := self._groups_below(taxon) - set(out["groups"])):
            out["some"] = sorted(below)
        return out

    def _groups_below(self, genus: str) -> set[str]:
        if self._below is None:
            self._below = {}
            for taxon, table in self.own.items():
                if " " in taxon:
                    self._below.setdefault(taxon.split(" ", 1)[0], set()).update(table.get("groups", ()))
        return self._below.get(genus, set())


def lineage_of(taxon: str) -> list[str]:
    """The taxon, then its genus.

    >>> lineage_of("Acer palmatum")
    ['Acer palmatum', 'Acer']
    """
    genus = taxon.split(" ", 1)[0]
    return [taxon] if genus == taxon else [taxon, genus]


def taxon_entry(taxon: str, taxa: Mapping[str, Plain]) -> Plain:
    """What is known of a taxon, the genus standing in for a species that has no file of its own."""
    for step in lineage_of(taxon):
        if step in taxa:
            return {**taxa[step], "lineage": lineage_of(taxon)}
    return {"lineage": lineage_of(taxon), "groups": [], "traits": {}, "cautions": []}
