"""The tokens of one row, read from left to right."""

from dataclasses import dataclass, field

from booklet.findings import Finding
from booklet.rows.tokens import Numbers, Token
from booklet.source import Span

END = Token("end", "", 0, 0)
TOLD = "told already"  # the word of an unread stretch that has a finding of its own


@dataclass(slots=True)
class Stream:
    """A position in a list of tokens; `span` is the text they came from.

    `closes` maps the index of an opening bracket to that of its closing one. `findings` collects
    what the reading functions find; it belongs to the row, not to this stretch of it.
    """

    tokens: list[Token]
    span: Span
    index: int = 0
    stop: int = -1
    findings: list[Finding] = field(default_factory=list)
    closes: dict[int, int] = field(default_factory=dict)
    nested: bool = False  # inside a bracket
    numbers: Numbers = Numbers({})  # how lists of sizes are read that are no tokens, such as lengths

    def __post_init__(self) -> None:
        if self.stop < 0:
            self.stop = len(self.tokens)

    @property
    def done(self) -> bool:
        return self.index >= self.stop

    def peek(self, ahead: int = 0) -> Token:
        at = self.index + ahead
        return self.tokens[at] if at < self.stop else END

    def take(self) -> Token:
        token = self.peek()
        self.index += 1
        return token

    def take_word(self, *values: str) -> bool:
        """Step over the next token if it is one of these words."""
        if self.peek().is_word(*values):
            self.index += 1
            return True
        return False

    def take_mark(self, *values: str) -> bool:
        if self.peek().is_mark(*values):
            self.index += 1
            return True
        return False

    def skip_articles(self) -> None:
        while self.peek().is_word("the", "loosely", "any"):
            self.index += 1

    def place(self, first: int, after: int | None = None) -> Span:
        """The text from token `first` up to, not including, token `after` (default: here)."""
        after = self.index if after is None else after
        last = max(first, min(after, len(self.tokens)) - 1)
        if not self.tokens:
            return self.span
        first = min(first, len(self.tokens) - 1)
        last = min(last, len(self.tokens) - 1)
        return self.span.sub(self.tokens[first].start, self.tokens[last].end)

    def words(self, first: int, after: int) -> str:
        """The author's own text of a run of tokens."""
        return self.place(first, after).text

    def inner(self, first: int, after: int) -> "Stream":
        """A stream over the tokens from `first` up to `after`."""
        return Stream(
            self.tokens, self.span, first, after, self.findings, self.closes, nested=True, numbers=self.numbers
        )


def match_brackets(tokens: list[Token]) -> tuple[dict[int, int], list[int], list[int]]:
    """Opening -> closing index of every pair, then the openings and the closings left without a twin."""
    pairs = {")": "(", "]": "["}
    closes: dict[int, int] = {}
    opened: list[int] = []
    stray: list[int] = []
    for index, token in enumerate(tokens):
        if token.is_mark("(", "["):
            opened.append(index)
        elif token.is_mark(")", "]"):
            wanted = pairs[str(token.value)]
            if opened and tokens[opened[-1]].value == wanted:
                closes[opened.pop()] = index
            elif any(tokens[at].value == wanted for at in opened):
                while tokens[opened[-1]].value != wanted:
                    stray.append(opened.pop())
                closes[opened.pop()] = index
            else:
                stray.append(index)
    unclosed = [at for at in stray if tokens[at].is_mark("(", "[")] + opened
    return closes, sorted(unclosed), [at for at in stray if not tokens[at].is_mark("(", "[")]
