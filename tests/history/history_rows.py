"""What must come of one row of the history, against what came."""

from benchmate.garden import follow_ups


def faults(row, answer, bench):
    """What is wrong with the answer to a row, in words; nothing where all that was said is kept."""
    found = []
    entries = [entry for entry in answer.logged]
    missed = [missed.words for missed in answer.reading.missed]
    if missed != row.get("missed", []):
        found.append(f"not taken in: {missed}")
    if row.get("nothing"):
        return found + ([f"logged {entries}"] if entries else [])
    if not entries:
        return [*found, "nothing was logged"]
    kinds = [entry.kind for entry in entries]
    if kinds != row.get("kind", kinds):
        found.append(f"kinds {kinds}")
    if "tree" in row and answer.tree != row["tree"]:
        found.append(f"the tree is {answer.tree}")
    kept = [entry for entry in entries if entry.kind != "struck"]
    tables = [table for entry in kept for table in (*entry.work, *entry.facts)]
    works = [table["work"] for entry in kept for table in entry.work]
    values = [table["value"] for entry in kept for table in entry.facts]
    measures = {key: value for entry in kept for key, value in entry.measures.items()}
    if sorted(works) != sorted(row.get("work", works)):
        found.append(f"works {works}")
    if missing := [value for value in row.get("facts", ()) if value not in values]:
        found.append(f"facts {values} without {missing}")
    if (wanted := row.get("holds")) and not any(wanted.items() <= table.items() for table in tables):
        found.append(f"no table holds {wanted}")
    if missing := {key: value for key, value in row.get("measures", {}).items() if measures.get(key) != value}:
        found.append(f"measures {measures} without {missing}")
    for key, name in (("because", "reason"), ("note", "said"), ("photo", "photo")):
        if key in row and not any(row[key] in (getattr(entry, name) or "") for entry in kept):
            found.append(f"{name} is {[getattr(entry, name) for entry in kept]}")
    if "day" in row and any(entry.day != row["day"] for entry in kept):
        found.append(f"days {[entry.day for entry in kept]}")
    if "due" in row:
        work, day = row["due"]
        tree = bench.house.garden.find(answer.tree)
        opened = [(item.work, item.on) for item in follow_ups(bench.house.entries(tree), False)]
        if (work, day) not in opened:
            found.append(f"open are {opened}")
    return found
