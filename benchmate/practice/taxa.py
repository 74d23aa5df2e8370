"""What is known of a taxon: its own cells, then those of its genus. A cell that neither has is unknown."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Plain = dict[str, Any]


def compile_taxa(tables: Mapping[str, Plain]) -> dict[str, Plain]:
    """taxon -> {"lineage", "groups", "traits", "cautions", "hazard", "some"} with everything inherited.

    some: groups that only some species of a genus are in; of the genus alone they are not known.
    traits: name -> {"is": value, "mark"|"source": ..., "from": taxon it stands at}.
    """
    files = {t["taxon"]: t for name, t in sorted(tables.items()) if name.startswith("species/") and "taxon" in t}
    taxa = {taxon: _inherit(taxon, files) for taxon in files}
    for taxon, entry in taxa.items():
        species = [other for name, other in taxa.items() if name.startswith(taxon + " ")]
        below = {group for other in species for group in other["groups"]} - set(entry["groups"])
        if below:
            entry["some"] = sorted(below)
    return taxa


def _inherit(taxon: str, files: Mapping[str, Plain]) -> Plain:
    lineage = lineage_of(taxon)
    out: Plain = {"lineage": [t for t in lineage if t in files], "groups": [], "traits": {}, "cautions": []}
    # from the genus down, so that the nearest cell stands
    for step in reversed(lineage):
        table = files.get(step, {})
        out["groups"] += [group for group in table.get("groups", []) if group not in out["groups"]]
        for name, cell in table.get("traits", {}).items():
            out["traits"][name] = {**(cell if isinstance(cell, dict) else {"is": cell}), "from": step}
        out["cautions"] += table.get("caution", [])
        if "hazard" in table:
            out["hazard"] = table["hazard"]
        if table.get("names"):
            out["names"] = table["names"]
    return out


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
