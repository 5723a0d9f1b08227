"""Support spacing: for each run what code, practice and sag allow; then how many supports that makes and what each carries."""

from math import ceil

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.carried import Carried, carried, run_faults
from kneewall.calculations.support_spacing.checks import check_run
from kneewall.calculations.support_spacing.code_tables import rod_for
from kneewall.calculations.support_spacing.messages import RunSupports, SupportedRun, SupportSpacingQuestion, SupportSpacingResult
from kneewall.calculations.support_spacing.spacing import FLEXIBLE_SAG, FLEXIBLE_STRAP, METAL_STRAP, Spacing, spacing_of
from kneewall.kernel.answer import Answer, Findings
from kneewall.kernel.quantity import Dimension, Length, Load
from kneewall.kernel.refusal import Fault, fault, refuse_any
from kneewall.physics.pipe_span import SIMPLE_SPAN, sag_between

EVEN = 1e-9


def space_supports(question: SupportSpacingQuestion) -> Answer[SupportSpacingResult]:
    """Answer a support-spacing question. Raises: Refusal where a run contradicts itself or is not made."""
    refuse_any(_faults(question))
    findings = Findings("support-spacing")
    found = []
    for run in question.runs:
        load = carried(run)
        spacing = spacing_of(run, load, question.code)
        supports = describe(run, load, spacing)
        findings.apply(spacing.governing[0], *load.rules)
        check_run(findings, run, load, spacing, supports, question.code)
        found.append(supports)
    _caution(findings, question)
    return findings.answer(SupportSpacingResult(code=question.code, runs=found))


def _faults(question: SupportSpacingQuestion) -> list[Fault]:
    found: list[Fault] = []
    seen: set[str] = set()
    for index, run in enumerate(question.runs):
        if run.id in seen:
            found.append(fault(f"/runs/{index}/id", "{} is the name of another run too", run.id))
        seen.add(run.id)
        found += run_faults(run, f"/runs/{index}")
    return found


def describe(run: SupportedRun, load: Carried, spacing: Spacing) -> RunSupports:
    """The supports of one run."""
    rule, most = spacing.governing
    spans = ceil(run.length / (most if run.spacing is None else run.spacing) * (1.0 - EVEN))
    span = min(most if run.spacing is None else run.spacing, run.length)
    flexible, horizontal = run.material == "flexible", run.orientation == "horizontal"
    sag = None
    if horizontal and load.modulus is not None and load.second_moment is not None:
        sag = sag_between(load.weight, span, load.modulus, load.second_moment)
    return RunSupports(
        id=run.id,
        maximum_spacing=most,
        governing_rule=rule.id,
        code_spacing=spacing.code,
        spacing=Length(run.length / spans) if run.spacing is None else run.spacing,
        supports=float(max(spans - 1, 0) if flexible else spans + 1),
        guides=float(spans) if spacing.guides else None,
        weight=load.weight,
        load_per_support=Load(load.weight * span + (run.valves or 0.0)),
        rod_diameter=None if run.kind == "duct" or not horizontal else rod_for(load.size).diameter,
        strap_width=_strap(run, load),
        sag=sag,
        sag_limit=Dimension(FLEXIBLE_SAG * span) if flexible and horizontal else None,
        drains_to=spacing.drains_to,
    )


def _strap(run: SupportedRun, load: Carried) -> Dimension | None:
    if run.kind == "duct":
        return FLEXIBLE_STRAP if run.material in ("flexible", "fibrous-glass-board") else METAL_STRAP
    return Dimension(load.outside / 2.0) if load.substance == "pe" else None


def _caution(findings: Findings, question: SupportSpacingQuestion) -> None:
    kinds = {run.kind for run in question.runs}
    findings.caution(rules.ATTACHMENT, rules.NO_WEIGHT_ON_DUCT, rules.FOOTING)
    if "pipe" in kinds:
        findings.apply(SIMPLE_SPAN)
        findings.caution(rules.BELLY)
    if "refrigerant-tube" in kinds:
        findings.apply(SIMPLE_SPAN)
        findings.caution(rules.CHAFING)
    if "duct" in kinds:
        findings.caution(rules.CRUSHED)
