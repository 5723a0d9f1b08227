"""What the supports of a run carry, and whether the run as described can be."""

from math import inf, pi
from typing import NamedTuple, cast

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.messages import SupportedRun
from kneewall.kernel.quantity import AreaLoad, Dimension, LinearLoad, Temperature
from kneewall.kernel.refusal import Fault, fault
from kneewall.kernel.rule import Rule
from kneewall.physics import ducts
from kneewall.physics.constants import STANDARD_GRAVITY
from kneewall.physics.duct_sizes import duct_faults, size_faults
from kneewall.physics.pipe_span import HUNG_PIPES, PLASTIC_MODULUS, PLASTICS, WATER_DENSITY, HungMaterial, hottest_known, hung_pipe, modulus
from kneewall.physics.pipes import fraction
from kneewall.physics.tubes import DIMENSIONS, Temper, tubes_named, tubes_of

CONTENTS = {"empty": 0.0, "water": WATER_DENSITY, "brine": 1050.0, "liquid-refrigerant": 1200.0}
"""kg/m3; brine about 30 % glycol; refrigerant the densest of those in use"""
FOAM_DENSITY = 64.0
"""kg/m3: 4 lb/ft3"""
WARM = Temperature.of(73, "degF")
DUCT_WEIGHT: dict[str, AreaLoad] = {str(row["material"]): AreaLoad.of(float(row["weight"]), "psf") for row in rules.DUCT_WEIGHT_TABLE.rows}
PIPE_MATERIALS = frozenset(name for name in HUNG_PIPES if name != "rubber-hose")
TEMPERS: dict[str, Temper] = {"copper-annealed": "annealed", "copper-drawn": "drawn"}


class Carried(NamedTuple):
    """A run as its supports know it. SI: weight N/m, size m, second moment m4, modulus Pa."""

    substance: str
    size: float
    outside: float
    weight: LinearLoad
    second_moment: float | None
    modulus: float | None
    rules: tuple[Rule, ...]


def carried(run: SupportedRun) -> Carried:
    """What this run, without fault, puts on its supports. Source: support-spacing.load."""
    if run.kind == "duct":
        assert run.duct is not None
        wall = DUCT_WEIGHT[run.material] if run.sheet_weight is None else run.sheet_weight
        return Carried(run.material, 0.0, 0.0, LinearLoad(wall * ducts.duct_perimeter(run.duct)), None, None, (rules.LOAD, rules.DUCT_WEIGHTS))
    assert run.nominal_size is not None
    if run.kind == "pipe":
        return _pipe(run, run.nominal_size)
    tube = tubes_named(TEMPERS[run.material], run.nominal_size)[0]
    density = CONTENTS[run.contents or "liquid-refrigerant"]
    weight = STANDARD_GRAVITY * (tube.weight + tube.area * density) + _foam(run, run.nominal_size)
    moment = pi / 64.0 * (run.nominal_size**4 - tube.inside_diameter**4)
    return Carried("copper", run.nominal_size, run.nominal_size, LinearLoad(weight), moment, modulus("copper", WARM), (rules.LOAD, DIMENSIONS))


def _pipe(run: SupportedRun, size: Dimension) -> Carried:
    pipe = hung_pipe(cast(HungMaterial, run.material), size)
    assert pipe is not None
    density = CONTENTS[run.contents or "water"]
    weight = pipe.empty_weight + (pipe.full_weight - pipe.empty_weight) * density / WATER_DENSITY + _foam(run, pipe.outside)
    used = (rules.LOAD, pipe.rule, PLASTIC_MODULUS) if pipe.substance in PLASTICS else (rules.LOAD, pipe.rule)
    stiff = pipe.stiffness(min(WARM if run.temperature is None else run.temperature, hottest_known(pipe.substance) or inf))
    return Carried(pipe.substance, size, pipe.outside, LinearLoad(weight), pipe.second_moment, stiff, used)


def _foam(run: SupportedRun, outside: float) -> float:
    thickness = run.insulation_thickness
    return 0.0 if thickness is None else STANDARD_GRAVITY * FOAM_DENSITY * pi * thickness * (outside + thickness)


def run_faults(run: SupportedRun, pointer: str) -> list[Fault]:
    """What in a run's description is missing, contradicts itself or is not made."""
    if run.kind == "duct":
        return _duct_faults(run, pointer)
    made = PIPE_MATERIALS if run.kind == "pipe" else TEMPERS
    found = [fault(f"{pointer}/{name}", "belongs to ducts only") for name in ("duct", "sheet_weight") if getattr(run, name) is not None]
    if run.material not in made:
        found.append(fault(f"{pointer}/material", "{} is not a {}; the materials are {}", run.material, run.kind, ", ".join(sorted(made))))
    elif run.nominal_size is None:
        found.append(fault(f"{pointer}/nominal_size", "is missing for a {}", run.kind))
    elif run.kind == "pipe" and hung_pipe(cast(HungMaterial, run.material), run.nominal_size) is None:
        known = ", ".join(fraction(key * 2.54e-5) for key in HUNG_PIPES[run.material])
        found.append(fault(f"{pointer}/nominal_size", "{} is known in the nominal sizes {} in", run.material, known))
    elif run.kind == "refrigerant-tube" and not tubes_named(TEMPERS[run.material], run.nominal_size):
        known = ", ".join(fraction(tube.nominal_size) for tube in tubes_of(TEMPERS[run.material]))
        found.append(fault(f"{pointer}/nominal_size", "{} tube is known in the outside diameters {} in", run.material, known))
    if run.slope is not None and run.orientation == "vertical":
        found.append(fault(f"{pointer}/slope", "a vertical run has no slope; leave it out"))
    if run.slope is not None and run.contents == "empty":
        found.append(fault(f"{pointer}/contents", "a run with a slope is a drain and must fall when it is full of water"))
    return found


def _duct_faults(run: SupportedRun, pointer: str) -> list[Fault]:
    stray = ("nominal_size", "contents", "slope", "insulation_thickness", "temperature")
    found = [fault(f"{pointer}/{name}", "does not belong to a duct") for name in stray if getattr(run, name) is not None]
    if run.material not in DUCT_WEIGHT:
        found.append(fault(f"{pointer}/material", "{} is not a duct; the materials are {}", run.material, ", ".join(DUCT_WEIGHT)))
    elif run.duct is None:
        found.append(fault(f"{pointer}/duct", "is missing for a duct"))
    else:
        described = ducts.Duct(material=cast(ducts.Material, run.material), shape=run.duct.shape)
        found += [Fault(pointer=f"{pointer}/duct/shape", detail=one.detail) for one in duct_faults(described, "")]
        found += size_faults(run.duct, described, f"{pointer}/duct")
    return found
