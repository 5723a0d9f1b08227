"""The check of how a valve closes: slowly, against an arrester, or with a blow."""

from kneewall.calculations.water_loop_flow import rules
from kneewall.calculations.water_loop_flow.surge import Surge
from kneewall.kernel.answer import Findings
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import PressureDrop, ShortDuration


def check_closing(
    findings: Findings, check: str, valve: str, surge: Surge, closing_time: ShortDuration | None, arrester: bool, end: str
) -> None:  # fmt: skip
    """One valve and the surge before it. `valve` is what it is called and `end` how the sentence on one that hammers goes on."""
    rise, back = PressureDrop(surge.rise), ShortDuration(surge.critical_time)
    if surge.slow:
        says = Phrase("{} takes {}, longer than the {} in which the wave is back: the surge is {}.", valve, closing_time, back, rise)
        findings.check(check, "meets", rules.ARRESTER, says, actual=closing_time, limit=back)
    elif arrester:
        says = Phrase("{} shuts quickly and would surge by {}; an arrester stands right before it. Have it sized for this flow.", valve, rise)
        findings.check(check, "meets", rules.ARRESTER, says, actual=rise)
    else:
        sentence = "{} shuts before the wave is back ({}) and surges by {}: take a slow valve, or fit a listed arrester right before it{}"
        says = Phrase(sentence, valve, back, rise, end)
        if closing_time is None:
            findings.check(check, "watch", rules.ARRESTER, says, actual=rise)
        else:
            findings.check(check, "watch", rules.ARRESTER, says, actual=closing_time, limit=back)
