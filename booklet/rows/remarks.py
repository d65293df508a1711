"""What the words beside a chain say of it: "counts as dc throughout", "does not count as a st", "skipped ch = 1 dc"."""

from dataclasses import replace

from booklet.model.tree import SPACE, Aside, Chain, Join, Node, Skip, SkippedCount, Turn, Where, Work
from booklet.rows.stream import Stream
from booklet.source import Span

Remark = tuple[bool, str, int, bool, bool]


def parse_remark_step(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """remark after a comma: "ch 3, counts as dc" """
    first = stream.index
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(",", ";", ".", "(", "["):
        stop += 1
    remark = read_remark(stream.inner(first, stop))
    if remark is None:
        return None
    stream.index = stop
    return apply_remark(remark, steps, stream.place(first))


def parse_stands_for(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """stands_for = ("for" | "as") ["the"] ["first" | 1] stitch ["and" "ch" n] | "to" "counts as" …, behind a chain"""
    if not steps or not isinstance(steps[-1], Chain):
        return None
    first = stream.index
    stream.take()
    if stream.peek().is_word("counts as"):
        return parse_remark_step(stream, steps)
    stream.skip_articles()
    if stream.peek().is_word("first") or stream.peek().value == 1 or stream.peek().numbers == (1,):
        stream.take()
    if stream.peek().kind != "st" or stream.peek().value in ("ch", "sl st"):
        stream.index = first
        return None
    stitch, then = str(stream.take().value), 0
    if stream.peek().is_word("and") and stream.peek(1).value == "ch" and stream.peek(2).kind == "num":
        then = stream.peek(2).numbers[0]
        stream.index += 3
    return apply_remark((True, stitch, then, False, False), steps, stream.place(first))


def read_remark(inner: Stream) -> Remark | None:
    """remark = ["skipped"] [n] ["ch"|"tch"] ("counts as" | "does not count" | "=") [stitch] ["," "ch" n] ["throughout"]

    Gives (counts, stitch, chains beyond it, throughout, about the skipped chains), or None.
    """
    tokens = inner.tokens[inner.index : inner.stop]
    at = next((i for i, t in enumerate(tokens) if t.is_word("counts as", "does not count")), None)
    if any(t.is_mark("(", "[") for t in tokens[:at]):
        return None  # "(ch 3 (counts as dc), 2 dc) in ring": said of the chain within
    skipped = any(t.is_word("sk") for t in tokens[: at or 0])
    if at is None:
        at = next((i for i, t in enumerate(tokens) if t.is_mark("=")), None)
        if at is None or (at > 0 and not any(t.value == "ch" or t.is_word("sk", "tch") for t in tokens[:at])):
            return None
        if at == 0 and not any(t.kind == "st" or t.is_word("st") for t in tokens):
            return None
        skipped = any(t.is_word("sk") for t in tokens[:at])
    counts = not tokens[at].is_word("does not count")
    rest = tokens[at + 1 :]
    stitch = next((str(t.value) for t in rest if t.kind == "st" and t.value != "ch"), "")
    then = 0
    for i, token in enumerate(rest):
        if token.value == "ch" and i + 1 < len(rest) and rest[i + 1].kind == "num":
            then = rest[i + 1].numbers[0]
        elif token.value == "ch" and i > 0 and rest[i - 1].kind == "num" and stitch:
            then = rest[i - 1].numbers[0]  # "1 dc, 1 ch"
        elif token.kind in ("chsp", "chn"):
            then = int(token.value)
    if then and not stitch and not any(token.is_word("st") for token in rest):
        stitch = SPACE  # "ch 2 (counts as ch-1 sp)"
    throughout = any(t.is_word("throughout") for t in tokens)
    return counts, stitch, then, throughout, skipped


def _find_chain(steps: list[Node]) -> int | None:
    """The chain that a row begins with, where nothing is worked behind it; None where there is none."""
    at = next((at for at, step in enumerate(steps) if isinstance(step, Chain)), None)
    behind = steps[at + 1 :] if at is not None else []
    return at if all(isinstance(step, Turn | Skip | Aside) for step in behind) else None


def apply_remark(remark: Remark, steps: list[Node], span: Span) -> list[Node]:
    """Puts what the words say on the chain before them, or on the skipped chains of a first row."""
    counts, stitch, then, throughout, skipped = remark
    last = steps[-1] if steps else None
    if isinstance(last, Turn) and len(steps) > 1:
        last = steps[-2]
    if isinstance(last, Work) and stitch == SPACE and len(steps) > 1 and isinstance(steps[-2], Chain):
        # "ch 2, dc in first sc (counts as last ch-5 lp)": the chain and the stitch are one space, and close the round
        closing = Join(last.span, last.where, last.stitch)
        steps[-2:] = [replace(steps[-2], count=(then,)), closing]
        return []
    if isinstance(last, Work) and stitch.endswith("2tog") and (begun := _find_chain(steps[:-1])) is not None:
        # "ch 2, turn, dc in next st (counts as dc2tog)": the stitch under the chain and the next make one
        chain = steps[begun]
        assert isinstance(chain, Chain)
        kept = [step for step in steps[begun + 1 : -1] if not isinstance(step, Skip)]
        together = replace(last, stitch=stitch, times=(1,), where=Where(bare=True))
        steps[begun:] = [replace(chain, counts=False), *kept, together]
        return []
    if isinstance(last, Chain) and not skipped:
        at = max(i for i, step in enumerate(steps) if step is last)
        steps[at] = replace(last, counts=counts, stands_for=stitch, then=then, throughout=throughout)
        return []
    return [SkippedCount(span, counts, stitch, then)]
