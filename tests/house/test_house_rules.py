"""Rules of the house that no linter sees."""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest
from msgspec import inspect

from kneewall.catalogue import all_calculations, all_rules, all_tables
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.quantity import Quantity, kinds
from kneewall.kernel.question import bounds_in
from kneewall.kernel.unit import unit_tables
from tests.http.document import served_document

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "service" / "kneewall"
SOURCES = sorted(PACKAGE.rglob("*.py"))
CALCULATIONS = [pytest.param(calculation, id=calculation.name) for calculation in all_calculations().values()]


def tracked() -> list[str]:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    return listed.stdout.splitlines()


def test_the_top_level_holds_what_it_should() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "service", "openapi", "tests", "docker", "scripts"}
    assert {name.split("/")[0] for name in tracked() if not name.startswith(".")} == allowed


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_files_stay_short(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= 250


def test_no_index_address_is_committed() -> None:
    for lock in (ROOT / "docker").glob("*.lock"):
        assert "://" not in lock.read_text("utf-8")


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_every_quantity_that_is_asked_states_its_bounds(calculation: AnyCalculation) -> None:
    assert [name for name in unbounded(inspect.type_info(calculation.question), calculation.name) if name] == []


def unbounded(described: inspect.Type, name: str, inside: bool = False) -> list[str]:
    """Fields of a question that hold an unbounded quantity or number."""
    if isinstance(described, inspect.Metadata):
        return unbounded(described.type, name, bounds_in(described) is not None)
    if isinstance(described, inspect.UnionType):
        return [one for member in described.types for one in unbounded(member, name, inside)]
    if isinstance(described, inspect.ListType):
        found = [] if described.max_length is not None else [f"{name}: a list without max_length"]
        return found + unbounded(described.item_type, name, inside)
    if isinstance(described, inspect.DictType):
        return unbounded(described.value_type, name, inside)
    if isinstance(described, inspect.StructType):
        return [one for field in described.fields for one in unbounded(field.type, f"{name}/{field.encode_name}")]
    if isinstance(described, inspect.CustomType):
        return [] if inside else [name]
    if isinstance(described, inspect.FloatType):
        return [] if described.ge is not None and described.le is not None else [name]
    if isinstance(described, inspect.IntType):
        return [f"{name}: a whole number; JSON knows only numbers"]
    if isinstance(described, inspect.StrType):
        return [] if described.max_length is not None or described.pattern is not None else [f"{name}: a text without a bound"]
    return []


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_a_calculation_is_complete(calculation: AnyCalculation) -> None:
    assert len(calculation.examples) >= 3
    assert calculation.says.endswith("?")
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", calculation.name)
    folder = calculation.name.replace("-", "_")
    assert (PACKAGE / "calculations" / folder / "messages.py").exists() or (PACKAGE / "retrofit" / "messages.py").exists()
    assert (ROOT / "tests" / "calculations" / f"test_{folder}.py").exists() or (ROOT / "tests" / "retrofit").exists()


def test_rules_say_who_they_are() -> None:
    """A rule's id begins with the calculation or the field of physics it belongs to; what is published names more than a habit."""
    prefixes = {*all_calculations(), *(path.stem for path in (PACKAGE / "physics").glob("*.py"))}
    for rule in all_rules().values():
        assert rule.id.split(".")[0].replace("_", "-") in {prefix.replace("_", "-") for prefix in prefixes}, rule.id
        assert rule.says.endswith("."), rule.id
        if rule.standing == "published":
            assert not rule.source.title.startswith("Common practice"), rule.id


def test_tables_keep_their_columns() -> None:
    for identity, table in all_tables().items():
        named = {column.name for column in table.columns}
        assert table.rows and all(row.keys() <= named for row in table.rows), identity


def test_schema_names_are_plain() -> None:
    assert [name for name in served_document()["components"]["schemas"] if not re.fullmatch(r"[A-Za-z_]+", name)] == []


def test_units_are_held_by_kinds_and_kinds_by_units() -> None:
    assert {kind.__name__ for kind in kinds()} == set(unit_tables())
    assert set(tomllib.loads((PACKAGE / "kernel" / "units.toml").read_text("utf-8"))) == set(unit_tables())
    assert all(issubclass(kind, Quantity) for kind in kinds())


def test_names_of_the_house() -> None:
    assert [path for path in SOURCES if path.stem in {"utils", "helpers", "common", "manager", "misc"}] == []
