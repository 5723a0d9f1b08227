"""What worker processes do: answer a chunk of items."""

from time import perf_counter

from kneewall.bulk.item import How, answer_item
from kneewall.bulk.tally import Outcome, Tally


def answer_items(items: list[bytes], how: How, as_lines: bool) -> Outcome:
    """The answers to a chunk of items, in the same order."""
    began = perf_counter()
    tally = Tally()
    return Outcome(joined([answer_item(item, how, tally) for item in items], as_lines), tally, perf_counter() - began)


def joined(answers: list[bytes], as_lines: bool) -> bytes:
    """Answers as they leave: each on its line, or parted by commas as in an array."""
    return b"\n".join([*answers, b""]) if as_lines else b",".join(answers)
