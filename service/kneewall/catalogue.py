"""Finds the calculations, their rules and their tables: one folder each, nothing to register."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType

from kneewall import calculations, physics
from kneewall.kernel.calculation import AnyCalculation
from kneewall.kernel.rule import Rule
from kneewall.kernel.table import Table
from kneewall.physics.refrigerant import refrigerants
from kneewall.physics.water import rated_water


@cache
def all_calculations() -> Mapping[str, AnyCalculation]:
    """Every calculation by name, in alphabetical order."""
    packages = [module for module in _modules(calculations) if hasattr(module, "CALCULATION")]
    if (Path(__file__).parent / "retrofit").is_dir():
        packages.append(import_module("kneewall.retrofit"))
    found: list[AnyCalculation] = [package.CALCULATION for package in packages]
    return {calculation.name: calculation for calculation in sorted(found, key=lambda one: one.name)}


def calculation_of(name: str) -> AnyCalculation | None:
    """The calculation of this name, without loading the others where its folder bears the name; None where there is none."""
    folder = name.replace("-", "_")
    if any(found.name == folder for found in iter_modules(calculations.__path__)):
        found: AnyCalculation = import_module(f"{calculations.__name__}.{folder}").CALCULATION
        return found
    return all_calculations().get(name)


def get_ready() -> None:
    """Wait until everything stands that questions need: every calculation's reader and the tables that are filled beside the start."""
    for calculation in all_calculations().values():
        _ = calculation.reader
    refrigerants(), rated_water()


@cache
def all_rules() -> Mapping[str, Rule]:
    """Every rule that any answer can apply, by id."""
    rules = (value for module in _speaking_modules() for value in vars(module).values() if isinstance(value, Rule))
    return {rule.id: rule for rule in sorted((*rules, *(table.rule for table in all_tables().values())), key=lambda rule: rule.id)}


@cache
def all_tables() -> Mapping[str, Table]:
    """Every table behind a rule, by the rule's id."""
    tables = (value for module in _speaking_modules() for value in vars(module).values() if isinstance(value, Table))
    return {table.rule.id: table for table in tables}


def _speaking_modules() -> Iterator[ModuleType]:
    yield from _modules(physics)
    for package in _modules(calculations):
        yield from _modules(package)
    if (Path(__file__).parent / "retrofit").is_dir():
        yield from _modules(import_module("kneewall.retrofit"))


def _modules(package: ModuleType) -> Iterator[ModuleType]:
    for found in iter_modules(package.__path__):
        yield import_module(f"{package.__name__}.{found.name}")
