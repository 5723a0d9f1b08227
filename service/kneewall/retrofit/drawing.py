"""A whole job on one page: the attic in section, the parts with their verdicts, the clashes between them, and the order of work."""

from kneewall.kernel.answer import Answer
from kneewall.kernel.lettering import BOLDER, width_of
from kneewall.kernel.phrase import Phrase
from kneewall.kernel.quantity import UnitSystem
from kneewall.kernel.svg import LARGE, PAPER, QUIET, SMALL, THIN, Drawing
from kneewall.kernel.words import in_words
from kneewall.retrofit.drawing_parts import draw_clashes, draw_parts, verdicts_of_parts
from kneewall.retrofit.drawing_section import draw_section
from kneewall.retrofit.messages import RetrofitCheckQuestion
from kneewall.retrofit.results import RetrofitCheckResult


def draw(question: RetrofitCheckQuestion, answer: Answer[RetrofitCheckResult], system: UnitSystem) -> str:
    """The drawing of an answer, as SVG."""
    result = answer.result
    drawing = Drawing(f"Job: {question.job.name}", described(answer).shown(system), 0.0)
    drawing.text(8, 22, question.job.name, size=LARGE, bold=True, within=344)
    drawing.mark(8, 42, result.verdict, _headline(result), within=340)
    y = 57.0
    if result.first:
        y = drawing.note(24, y, result.first[0].says.shown(system), 326) + 2.0
    y = draw_section(drawing, question, result, system, y + 2.0)
    drawing.cut(y)
    y = draw_parts(drawing, answer, y + 14.0)
    drawing.cut(y)
    y = draw_clashes(drawing, result, system, y + 12.0)
    drawing.cut(y)
    drawing.height = _draw_order(drawing, answer, y + 12.0)
    return drawing.svg()


def _headline(result: RetrofitCheckResult) -> str:
    return f"{len(result.first)} to settle; begin with this" if result.first else "the whole job"


def described(answer: Answer[RetrofitCheckResult]) -> Phrase:
    """What the drawing shows, for those who do not see it."""
    verdicts = verdicts_of_parts(answer)
    parts = ", ".join(f"{in_words(part)} {verdict}" for part, verdict in verdicts.items()) or "no part was given"
    clashes = [clash.conflict for clash in answer.result.conflicts if clash.verdict != "meets"]
    sentence = "{} Parts: {}. Clashes: {}. The work goes through {} stages, from {} to {}."
    stages = answer.result.order_of_work
    return Phrase(
        sentence, answer.result.says, parts, ", ".join(clashes) or "none", str(len(stages)), stages[0].stage if stages else "none",
        stages[-1].stage if stages else "none",
    )  # fmt: skip


def _draw_order(drawing: Drawing, answer: Answer[RetrofitCheckResult], y: float) -> float:
    """The stages as a chain, each with what can harm there; a stage whose part fails or whose material did not come is held up."""
    verdicts = verdicts_of_parts(answer)
    drawing.text(8, y + 4, "Order of work", bold=True)
    drawing.text(352, y + 4, "hazards", size=SMALL, at="end", colour=QUIET)
    stopped = {line.stops for line in answer.result.delivery or ()}
    y += 22.0
    stages = answer.result.order_of_work
    drawing.line(16, y - 3, 16, y - 3 + 20.0 * (len(stages) - 1), THIN)
    for number, stage in enumerate(stages, start=1):
        drawing.circle(16, y - 3, 9.5, THIN, fill=PAPER)
        drawing.text(16, y + 0.5, str(number), size=SMALL, at="middle", bold=True)
        drawing.text(31, y + 0.5, stage.stage, size=SMALL, bold=True, within=200)
        if stage.stage in stopped or any(verdicts.get(part) == "fails" for part in stage.parts):
            drawing.mark(234, y + 0.5, "fails", "settle first", within=120)
        else:
            room = 352.0 - 38.0 - width_of(stage.stage, SMALL * BOLDER)
            drawing.text(352, y + 0.5, ", ".join(map(in_words, stage.hazards)), size=SMALL, at="end", colour=QUIET, within=room)
        y += 20.0
    return y - 4.0
