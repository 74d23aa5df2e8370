"""One test of a kind of case runs once for each case of that kind in cases/*.toml."""

from __future__ import annotations

from typing import Any

import pytest
from reckoning_files import cases, rules_tables


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    kind = getattr(metafunc.function, "kind_of_case", None)
    if kind:
        found = list(cases(kind))
        metafunc.parametrize("case_file", found, ids=[case["id"] for _, case, _ in found])


@pytest.fixture(scope="session")
def tables() -> dict[str, Any]:
    return rules_tables()
