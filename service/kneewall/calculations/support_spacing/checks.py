"""The checks on one run: the spacing that is there, the code's silence, the fall of a drain, heat, rod and room to expand."""

from kneewall.calculations.support_spacing import rules
from kneewall.calculations.support_spacing.carried import WARM, Carried
from kneewall.calculations.support_spacing.code_tables import rod_for
from kneewall.calculations.support_spacing.messages import Code, RunSupports, SupportedRun
from kneewall.calculations.support_spacing.spacing import KNOWN_TUBE, SLACK, Spacing
from kneewall.kernel.answer import EQUAL_WITHIN, Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length
from kneewall.kernel.words import in_words
from kneewall.physics.pipe_span import PLASTIC_MODULUS, PLASTICS, hottest_known

EXPANSION_EVERY = Length.of(30, "ft")


def check_run(findings: Findings, run: SupportedRun, load: Carried, spacing: Spacing, found: RunSupports, code: Code) -> None:
    """Every check that this run gives figures for; each carries the run's name."""
    if run.spacing is not None:
        findings.at_most(
            f"{run.id}: spacing", run.spacing, found.maximum_spacing, spacing.governing[0],
            meets="The supports stand {} apart, within {}.",
            breaks="The supports stand {} apart, more than {}: add supports.",
        )  # fmt: skip
    if spacing.code is None:
        says = Phrase("No rule of {} for {} {} is held here: {} is practice or a careful figure; ask the maker and the authority.",
                      code, in_words(run.material), run.kind.replace("-", " "), found.maximum_spacing)  # fmt: skip
        findings.check(f"{run.id}: code", "refer", rules.NO_RULE, says)
    if run.slope is not None:
        _check_fall(findings, run, spacing)
    hottest = hottest_known(load.substance)
    if hottest is not None and run.temperature is not None and run.temperature > hottest + 1e-6:
        sentence = "At {} {} is softer than at {}, the hottest at which its stiffness is known: the spacing here is an upper bound. Support it continuously, or use metal."
        findings.check(
            f"{run.id}: heat",
            "fails",
            PLASTIC_MODULUS,
            Phrase(sentence, run.temperature, in_words(run.material), hottest),
            actual=run.temperature,
            limit=hottest,
        )
    if run.kind == "pipe" and run.temperature is not None and run.temperature > WARM and load.modulus is None and load.substance in PLASTICS:
        says = Phrase("How stiff {} is at {} is not known here: support it continuously, or use metal.", in_words(run.material), run.temperature)
        findings.check(f"{run.id}: heat", "watch", PLASTIC_MODULUS, says, actual=run.temperature)
    if run.kind == "refrigerant-tube" and run.orientation == "horizontal" and load.size > KNOWN_TUBE + SLACK:
        says = Phrase("No spacing was read for tube of {}; {} is kept.", run.nominal_size, found.maximum_spacing)
        findings.check(f"{run.id}: large tube", "watch", rules.REFRIGERANT_TUBE, says)
    if found.rod_diameter is not None:
        findings.at_most(
            f"{run.id}: rod", found.load_per_support, rod_for(load.size).load, rules.RODS,
            meets="Each support carries {}, within the {} of its rod.",
            breaks="Each support carries {}, more than the {} of its rod: hang the valve by itself, or take a larger rod.",
        )  # fmt: skip
    if code == "UPC-2021" and load.substance in ("pvc", "abs") and run.length > EXPANSION_EVERY * (1.0 + EQUAL_WITHIN):
        says = Phrase("The run is {} long: leave room to expand every {}.", run.length, EXPANSION_EVERY)
        findings.check(f"{run.id}: expansion", "watch", rules.EXPANSION, says, actual=run.length, limit=EXPANSION_EVERY)


def _check_fall(findings: Findings, run: SupportedRun, spacing: Spacing) -> None:
    name = f"{run.id}: fall between supports"
    if spacing.drains_to is None:
        says = Phrase(
            "Whether {} still falls between its supports is not known: its stiffness is not. Support it continuously.", in_words(run.material)
        )
        findings.check(name, "watch", rules.STILL_FALLS, says)
        return
    hot = WARM if run.temperature is None else run.temperature
    ceiling = spacing.allowed[0][1] if run.spacing is None else run.spacing
    if ceiling <= spacing.drains_to * (1.0 + EQUAL_WITHIN):
        verdict, sentence = "meets", "At {} apart the drain, full and at {}, falls all the way; beyond {} it would hold water."
    elif run.spacing is None:
        verdict, sentence = (
            "watch",
            "{} apart is allowed, but the drain, full and at {}, then holds water: {} governs. More slope lets it hang wider.",
        )
    else:
        verdict, sentence = (
            "fails",
            "At {} apart the drain, full and at {}, holds water in mid-span: hang it every {} or closer, or give it more slope.",
        )
    says = Phrase(sentence, ceiling, hot, spacing.drains_to)
    findings.check(name, verdict, rules.STILL_FALLS, says, actual=ceiling, limit=spacing.drains_to)  # type: ignore[arg-type]
