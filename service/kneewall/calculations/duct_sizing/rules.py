"""What duct sizing rests on beside the physics of ducts, and its cautions."""

from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule

ROUND_UP = Rule(
    id="duct-sizing.round-up",
    says="The next nominal size up is taken, and velocity and friction are worked out again for that size.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
ASKED_LIMIT = Rule(
    id="duct-sizing.asked-limit",
    says="The friction rate and velocity limit are those of the question.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
FULLY_TURBULENT = Rule(
    id="duct-sizing.flow-regime",
    says="Between Reynolds numbers 2000 and 4000 the flow may flip between laminar and turbulent, and no friction figure is better than a guess.",
    kind="limit",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
USUAL_FRICTION = Rule(
    id="duct-sizing.usual-friction",
    says="Above 0.18 in. w.c. per 100 ft ducts in houses are heard and the blower seldom has the pressure for them.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
SLACK = Rule(
    id="duct-sizing.slack",
    says="Flexible duct is pulled out and cut to length: 4 % of slack is what a careful job leaves. 15 % is what a duct springs back to when it is let go.",
    kind="practice",
    source=COMMON_PRACTICE,
    standing="common-practice",
)
CAREFUL, LET_GO = 0.96, 0.85
"""Installed over fully extended length."""

SLACK_IS_NOT_SAG = Caution(
    id="duct-sizing.slack-is-not-sag",
    hazard="air-quality",
    says="Slack and sag are different things: a flexible duct can hang within the sag limit and still be 15 % too long. Pull it straight, cut off "
    "the surplus, and measure the air at the outlet.",
)
SIZE_IS_NOT_THE_SYSTEM = Caution(
    id="duct-sizing.one-duct-only",
    hazard="air-quality",
    says="One duct that fits does not make a system that works: the blower must also carry the fittings, filter, coil and grilles. "
    "A fuel-burning appliance near a starved return can backdraft.",
)
