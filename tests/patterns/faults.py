"""Plants one mistake at a time in the sound patterns and measures how many are found, and where.

Only mistakes that change a count or a structure are planted: a stitch is exchanged where the row's own
count names it, a number where the row states what it comes to. Everything is drawn from a seed, so
that a miss can be looked at again. Run as a program it prints the shares and the misses.

    python tests/patterns/faults.py [how many of each kind and pattern] [kind]
"""

import random
import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from booklet.pipeline import prove_text

SOUND = Path(__file__).parent / "sound"
SEED = 20_261_125
LABEL = re.compile(
    r"(?:\*\*)?(?P<word>Rows?|Rnds?|Rounds?|R|Next (?:row|rnd))?(?P<gap> ?)(?P<number>\d+)?"
    r"(?P<ordinal>st|nd|rd|th)?[^:]{0,20}:"
)
TO = r"\d+ \((?:\d+, )*\d+\)"
COUNT = re.compile(
    rf"(?:[(\[](?P<inside>\d[^()\[\]]*)[)\]]\.?|(?P<list>{TO} [a-z]\w*(?:, {TO} [\w-]+(?: sps)?)?)\.)$",
)
NUMBER = re.compile(r"(?<![-\w])\d+(?![-\w])")
SIZES = re.compile(r"\d+ \((?:\d+, )+\d+\)")
# Looked at by hand: with these the row comes out at its count as well, so nobody could tell.
STILL_SOUND = {
    ("spike-stripes", 15, "3", "2"),  # 3 + 8 × 3 stitches in place of 3 + 6 × 4
    ("spike-stripes", 19, "3", "2"),
}
# What the row's own count does not name can only be told where the next row works into it.
TOLD_BY_NEXT = {("mitten", 25), ("raglan-yoke", 18)}
US, UK = ("sc", "hdc", "dc"), ("dc", "htr", "tr")


@dataclass(frozen=True)
class Row:
    """A line that is a row: the words behind the label up to the count, and the count, as offsets in the text."""

    line: int
    start: int
    steps: int
    count: int
    end: int
    text: str

    @property
    def words(self) -> str:
        return self.text[self.steps : self.count]

    @property
    def stated(self) -> str:
        return self.text[self.count : self.end]


@dataclass(frozen=True)
class Fault:
    """A pattern with one mistake in it. `lines` are where it may be told; `was` and `now` show it."""

    kind: str
    pattern: str
    lines: tuple[int, ...]
    was: str
    now: str
    text: str


Change = tuple[int, int, str]
Planter = Callable[[Row, "Pattern"], Iterator[Change]]


@dataclass(frozen=True)
class Pattern:
    """A sound pattern with its rows."""

    name: str
    text: str
    rows: tuple[Row, ...]

    @property
    def stitches(self) -> tuple[str, ...]:
        return UK if "terms: UK" in self.text else US


def read_pattern(file: Path) -> Pattern:
    """A pattern with the places of its rows' words and counts."""
    text = file.read_text(encoding="utf-8")
    rows, at = [], 0
    for line, words in enumerate(text.split("\n"), 1):
        label = LABEL.match(words)
        if label and (label["number"] or (label["word"] or "").startswith("Next")):
            count = COUNT.search(words)
            steps = at + label.end()
            end = at + (count.end() if count else len(words))
            rows.append(Row(line, at, steps, max(steps, at + count.start()) if count else end, end, text))
        at += len(words) + 1
    return Pattern(file.stem, text, tuple(rows))


def list_patterns() -> list[Pattern]:
    """The patterns that nothing is said against as they stand."""
    patterns = [read_pattern(file) for file in sorted(SOUND.glob("*.md"))]
    return [pattern for pattern in patterns if not find_lines(pattern.text)]


def find_lines(text: str) -> set[int]:
    """The lines on which something is found."""
    return {finding.span.line for finding in prove_text(text, "fault.md").findings if finding.code != "gauge-missing"}


def _step(number: str) -> Iterator[str]:
    yield str(int(number) + 1)
    if int(number) > 1:
        yield str(int(number) - 1)


def _change_numbers(form: str, row: Row, first: int, last: int) -> Iterator[Change]:
    """Every number that the form's group holds, one up and one down."""
    for match in re.finditer(form, row.text[first:last], re.IGNORECASE):
        for number in _step(match[1]):
            yield first + match.start(1), first + match.end(1), number


def plant_count(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A stated number, one digit of it wrong."""
    for match in NUMBER.finditer(row.stated):
        digits = match.group()
        for at, digit in enumerate(digits):
            other = str((int(digit) + 1) % 10) if at or digit != "9" else "8"
            yield row.count + match.start() + at, row.count + match.start() + at + 1, other


def plant_repeats(row: Row, pattern: Pattern) -> Iterator[Change]:
    """How often a bracket or a star is worked."""
    if row.stated:
        yield from _change_numbers(r"\b(\d+) (?:more )?times\b", row, row.steps, row.count)
        yield from _change_numbers(r"[x×*] ?(\d+)", row, row.steps, row.count)


def _find_made(row: Row, pattern: Pattern) -> Iterator[re.Match[str]]:
    """Stitches that are made, where the count names them."""
    if "evenly" in row.words:
        return
    for match in re.finditer(r"\b(\w+)\b(?= in(?:to)? | around )", row.words):
        word = match[1].lower()
        if word in pattern.stitches and re.search(rf"\d {word}\b", row.stated) and not _joins(row.words, match.start()):
            yield match


def _joins(words: str, at: int) -> bool:
    return bool(re.search(r"\b(?:join|ss|sl st)\b[^,;.]*$", words[:at]))


def plant_stitch(row: Row, pattern: Pattern) -> Iterator[Change]:
    """One stitch for another."""
    for match in _find_made(row, pattern):
        for other in pattern.stitches:
            if other != match[1].lower():
                yield row.steps + match.start(), row.steps + match.end(), other


def plant_number(row: Row, pattern: Pattern) -> Iterator[Change]:
    """One stitch more or less."""
    if row.stated and "evenly" not in row.words:
        places = r"(?:next|first|last) (\d+)(?= (?:sts?|sc|dc|hdc|htr|tr|ch)\b)(?! \()"
        yield from _change_numbers(places, row, row.steps, row.count)
        yield from _change_numbers(r"(?<![-\w])(\d+) (?:sc|dc|hdc|htr|tr) in(?:to)? ", row, row.steps, row.count)


def plant_last(row: Row, pattern: Pattern) -> Iterator[Change]:
    """To the last so many."""
    yield from _change_numbers(r"to last (\d+)", row, row.steps, row.count)


def plant_skip(row: Row, pattern: Pattern) -> Iterator[Change]:
    """Places passed over."""
    yield from _change_numbers(r"\b(?:sk|skip|miss) (?:next )?(\d+)(?! \()", row, row.steps, row.count)


def plant_size_missing(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A size list with one number left out."""
    for match in SIZES.finditer(row.text, row.steps, row.end):
        yield match.start(), match.end(), re.sub(r", \d+\)$", ")", match.group())


def plant_grade(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A size list with one number wrong."""
    for match in SIZES.finditer(row.text, row.steps, row.end) if row.stated else ():
        for number in NUMBER.finditer(match.group()):
            for other in _step(number.group()):
                yield match.start() + number.start(), match.start() + number.end(), other


def plant_breakdown(row: Row, pattern: Pattern) -> Iterator[Change]:
    """Two kinds in the count, one up and one down: the total stays."""
    numbers = list(NUMBER.finditer(row.stated))
    if len(numbers) == 2 and not SIZES.search(row.stated):
        first, second = (int(number.group()) for number in numbers)
        start, end = numbers[0].start(), numbers[1].end()
        between = row.stated[numbers[0].end() : numbers[1].start()]
        yield row.count + start, row.count + end, f"{first + 1}{between}{second - 1}"


def plant_label(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A row number that stands twice, or that is passed over."""
    label = LABEL.match(row.text, row.start)
    if label and label["number"] and label["word"] in ("Row", "Rnd", "R", "Round"):
        for number in _step(label["number"]):
            yield label.start("number"), label.end("number"), number


def plant_missing_row(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A row left out, with more of the same piece behind it."""
    after = [other for other in pattern.rows if other.start > row.start]
    label = LABEL.match(row.text, after[0].start) if after else None
    if label and label["number"] and int(label["number"]) > 1:
        yield row.start, row.end, ""


def plant_unknown(row: Row, pattern: Pattern) -> Iterator[Change]:
    """An abbreviation that nobody has explained."""
    for match in _find_made(row, pattern):
        for word in ("wst", "gsc", "kt"):
            yield row.steps + match.start(), row.steps + match.end(), word


def plant_colour(row: Row, pattern: Pattern) -> Iterator[Change]:
    """A colour that is not among the pattern's."""
    if re.search(r"^Colou?rs: ", pattern.text, re.MULTILINE):
        for match in re.finditer(r"(?:With|to) ([A-C])\b", row.words):
            yield row.steps + match.start(1), row.steps + match.end(1), "E"


PLANTERS: dict[str, Planter] = {
    "digit of a count": plant_count,
    "repeat count": plant_repeats,
    "stitch for another": plant_stitch,
    "one stitch more or less": plant_number,
    "to the last n": plant_last,
    "skipped places": plant_skip,
    "size list too short": plant_size_missing,
    "one grade wrong": plant_grade,
    "breakdown of a count": plant_breakdown,
    "row number": plant_label,
    "row left out": plant_missing_row,
    "unknown abbreviation": plant_unknown,
    "colour never joined": plant_colour,
}


def list_faults(number: int, kinds: tuple[str, ...] = tuple(PLANTERS)) -> Iterator[Fault]:
    """Up to so many faults of each kind in each pattern."""
    for pattern in list_patterns():
        for kind in kinds:
            found = [(row, change) for row in pattern.rows for change in PLANTERS[kind](row, pattern)]
            drawn = random.Random(f"{SEED} {pattern.name} {kind}")  # noqa: S311 - the same draw every time is what is wanted
            found = [(row, change) for row, change in found if not _is_still_sound(pattern, row, change)]
            for row, change in drawn.sample(found, min(number, len(found))):
                yield plant_fault(kind, pattern, row, change)


def _is_still_sound(pattern: Pattern, row: Row, change: Change) -> bool:
    start, end, now = change
    return (pattern.name, row.line, pattern.text[start:end], now) in STILL_SOUND


def plant_fault(kind: str, pattern: Pattern, row: Row, change: Change) -> Fault:
    """The pattern with one change; a wrong number of a row may also be told at the row beside it."""
    start, end, now = change
    text = pattern.text[:start] + now + pattern.text[end:]
    lines = {row.line}
    at = pattern.rows.index(row)
    if (pattern.name, row.line) in TOLD_BY_NEXT:
        lines.add(pattern.rows[at + 1].line)
    if kind in ("row number", "row left out"):
        lines |= {other.line for other in pattern.rows[max(0, at - 1) : at + 2]}
    return Fault(kind, pattern.name, tuple(sorted(lines)), pattern.text[start:end], now, text)


def judge_fault(fault: Fault) -> str:
    """Whether it is found: "there", "elsewhere" or "missed"."""
    lines = find_lines(fault.text)
    if lines & set(fault.lines):
        return "there"
    return "elsewhere" if lines else "missed"


def measure(number: int, kinds: tuple[str, ...] = tuple(PLANTERS)) -> tuple[dict[str, list[int]], list[str]]:
    """For each kind how many were found there, elsewhere and not at all; and the lines of the last two."""
    shares: dict[str, list[int]] = {}
    misses = []
    for fault in list_faults(number, kinds):
        verdict = judge_fault(fault)
        shares.setdefault(fault.kind, [0, 0, 0])[("there", "elsewhere", "missed").index(verdict)] += 1
        if verdict != "there":
            misses.append(f"{verdict}: {fault.kind}, {fault.pattern}:{fault.lines[0]}: {fault.was!r} -> {fault.now!r}")
    return shares, misses


def main(arguments: list[str]) -> None:
    """Prints the shares, and what was missed."""
    number = int(arguments[0]) if arguments else 4
    shares, misses = measure(number, tuple(arguments[1:]) or tuple(PLANTERS))
    lines = [f"{'':26} planted  at the line  elsewhere  missed"]
    for kind, (there, elsewhere, missed) in shares.items():
        planted = there + elsewhere + missed
        lines.append(f"{kind:26} {planted:7} {there / planted:12.1%} {elsewhere:10} {missed:7}")
    total = [sum(column) for column in zip(*shares.values(), strict=True)]
    lines.append(f"{'all':26} {sum(total):7} {total[0] / sum(total):12.1%} {total[1]:10} {total[2]:7}")
    sys.stdout.writelines(f"{line}\n" for line in (*lines, *misses))


if __name__ == "__main__":
    main(sys.argv[1:])
