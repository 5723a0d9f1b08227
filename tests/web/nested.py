"""A calculation that exists only for the tests of the form: every shape of field a question may have, nested."""

from typing import Annotated, Literal

import msgspec

from kneewall.kernel.answer import Answer, Figured, Findings
from kneewall.kernel.calculation import Calculation, Example
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import Length, Temperature, UnitSystem
from kneewall.kernel.question import Question, asked
from kneewall.kernel.refusal import fault, refuse_any
from kneewall.kernel.rule import COMMON_PRACTICE, Caution, Rule
from kneewall.kernel.svg import Drawing

TOTAL = Rule(id="branch-tally.total", says="Lengths add up.", kind="formula", source=COMMON_PRACTICE, standing="common-practice")
CAUTION = Caution(id="branch-tally.caution", hazard="fall", says="Walk on the joists.")


class TallyJoint(Question, frozen=True, kw_only=True):
    """One joint on a branch."""

    joint: Annotated[Literal["sleeve", "collar", "boot"], msgspec.Meta(description="Kind of joint")]
    allowance: Annotated[Length, asked("Length allowed for it", least="0 in", most="10 ft")] | None = None


class TallyWrap(Question, frozen=True, kw_only=True):
    """The insulation round a branch."""

    thickness: Annotated[Length, asked("Thickness", least="1/4 in", most="4 in")]
    foil_faced: Annotated[bool, msgspec.Meta(description="Whether it is faced with foil")] = True


class TallyBranch(Question, frozen=True, kw_only=True):
    """One branch."""

    id: Annotated[str, msgspec.Meta(description="Name of the branch", min_length=1, max_length=120)]
    side: Annotated[Literal["supply", "return"], msgspec.Meta(description="Which side of the unit")] = "supply"
    length: Annotated[Length, asked("Length along its middle", least="1 in", most="500 ft")]
    joints: Annotated[list[TallyJoint], msgspec.Meta(max_length=20, description="Joints, from the unit outward")] = []
    fittings: Annotated[dict[Literal["elbow-90", "elbow-45", "tee"], Annotated[float, msgspec.Meta(ge=0, le=50)]], msgspec.Meta(max_length=3)] = {}
    wrap: Annotated[TallyWrap, msgspec.Meta(description="Insulation, where it has any")] | None = None


class TallyQuestion(Question, frozen=True, kw_only=True):
    """How long are these branches together?"""

    branches: Annotated[list[TallyBranch], msgspec.Meta(min_length=1, max_length=60, description="Every branch of the job")]
    spares: Annotated[list[Annotated[Length, asked("A spare length", least="1 in", most="500 ft")]], msgspec.Meta(max_length=9)] = []
    attic: Annotated[Temperature, asked("Attic on the hottest day", least="-40 degF", most="180 degF")] | None = None


class TallyRow(Figured, frozen=True, kw_only=True):
    """A branch that was added up."""

    id: str
    length: Length


class TallyResult(Figured, frozen=True, kw_only=True):
    """The sum."""

    total: Length
    branches: list[TallyRow]


def tally(question: TallyQuestion) -> Answer[TallyResult]:
    """Add the lengths up. Raises: Refusal where two branches have one name."""
    names = [one.id for one in question.branches]
    refuse_any([fault(f"/branches/{at}/id", "is used twice; {}", name) for at, name in enumerate(names) if name in names[:at]])
    findings = Findings("branch-tally")
    findings.caution(CAUTION)
    total = Length(sum(one.length for one in question.branches))
    says = Phrase("{} of branches", total)
    findings.check("total", "watch" if total > Length.of(100, "ft") else "meets", TOTAL, says, actual=total)
    return findings.answer(TallyResult(total=total, branches=[TallyRow(id=one.id, length=one.length) for one in question.branches]))


def draw(question: TallyQuestion, answer: Answer[TallyResult], system: UnitSystem) -> str:
    """The branches' names, one below the other."""
    drawing = Drawing(
        "Branches", f"{len(question.branches)} branches: " + ", ".join(one.id for one in question.branches), 40.0 + 16 * len(question.branches)
    )
    for at, one in enumerate(question.branches):
        drawing.text(10, 24 + 16 * at, one.id, within=200)
        drawing.text(350, 24 + 16 * at, one.length.shown(system), at="end")
    return drawing.svg()


def branch(at: int) -> dict[str, object]:
    """One branch as it would be sent."""
    joints = [{"joint": "sleeve"}, {"joint": "boot", "allowance": "4-1/2 in"}]
    return {"id": f"branch-{at}", "side": "supply", "length": f"{at + 10} ft", "joints": joints, "fittings": {"elbow-90": 2}}


CALCULATION = Calculation(
    name="branch-tally",
    title="Branch tally",
    says="How long are these branches together?",
    question=TallyQuestion,
    result=TallyResult,
    function=tally,
    working=lambda _question, _answer: [],
    drawing=draw,
    examples=(
        Example(
            "two-branches", "Two branches off one plenum", {"branches": [branch(1), branch(2)], "spares": ["2 ft", "18 in"], "attic": "118 degF"}
        ),
        Example("twenty-branches", "A whole floor", {"branches": [branch(at) for at in range(20)]}),
    ),
)
