"""The plain text edition: all sizes in one file, and a file for each size."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.editions.size_rows import SizedLine, SizeRows
from booklet.findings import Finding, join_words
from booklet.model.pattern import RowLine
from booklet.model.tree import PerSize, at_size
from booklet.pages.plain_text import write_plain_text
from booklet.pages.row_texts import read_row_text
from booklet.pages.spoken_rows import close_sentence, speak_count, speak_label, speak_row, speak_steps
from booklet.pages.spoken_text import Speech, make_speech
from booklet.rows.print_prose import carry_prose


def write_text(commission: Commission) -> Made:
    """`…-text.txt`, and where the pattern has several sizes one such file for each."""
    files = {commission.name_file("text", "txt"): _write(commission)}
    findings: list[Finding] = []
    sizes = len(commission.pattern.size_names)
    for size in range(sizes if sizes > 1 else 0):
        alone, _ = take_one_size(commission, size)
        files[alone.name_file("text", "txt")] = _write(alone)
    return files, findings


def _write(commission: Commission) -> bytes:
    speaker = _LineSpeaker(commission)
    lines = {
        line.span.start: tuple(speaker.speak(line))
        for part in commission.parsed.sized.pattern.parts
        for line in part.rows
    }
    return write_plain_text(commission.manuscript, lines).encode("utf-8")


class _LineSpeaker:
    """Speaks the lines of rows: in the size of the commission, or for all sizes."""

    def __init__(self, commission: Commission) -> None:
        parsed, names = commission.parsed, commission.parsed.sized.pattern.size_names
        self.speech: Speech = make_speech(commission.pattern)
        self.own, self.names = parsed.sized.pattern.terms, names
        places = range(len(names)) if commission.place is None and len(names) > 1 else (commission.place,)
        letters = "|".join(re.escape(colour.letter) for colour in commission.pattern.colours if colour.letter)
        self.with_colour = re.compile(rf"\b([Ww]ith) ({letters or '(?!)'})\b(?=[,;:])")
        self.own_line = commission.pattern.style.count_place == "own line"
        self.arranged, carried = commission.arranged, commission.pattern
        worked = commission.worked
        self.sizes = [SizeRows(parsed, place, self.speech.terms, self.arranged, carried, worked) for place in places]
        self.numbers = [
            {name: number.values if place is None else (at_size(number.values, place),) for name, number in numbers}
            for numbers in (list(parsed.sized.numbers.items()),)
            for place in places
        ]

    def speak(self, line: RowLine) -> Iterator[str]:
        """One line, or where its numbers differ a line with its label and a line for each size."""
        spoken = [self._speak_in(rows, line, n) for rows, n in zip(self.sizes, self.numbers, strict=True)]
        first = next((said for said in spoken if said is not None), None)
        if first is None:
            return
        if all(said == first for said in spoken):
            yield from filter(None, (first.line, first.count) if self.own_line else (first.whole,))
        elif all(said is not None and said.steps == first.steps for said in spoken):
            yield f"{first.label} {first.steps}".strip()
            yield from self._name_sizes([said.count if said else "" for said in spoken])
        else:
            yield from filter(None, (first.label,))
            yield from self._name_sizes([replace(said, label="").whole if said else "" for said in spoken])

    def _name_sizes(self, texts: Sequence[str]) -> Iterator[str]:
        """Each text once, behind the names of the sizes that have it."""
        names: dict[str, list[str]] = {}
        for name, text in zip(self.names, texts, strict=True):
            if text:
                names.setdefault(text, []).append(name)
        for text, of in names.items():
            yield f"{'Sizes' if len(of) > 1 else 'Size'} {join_words(of)}: {text}"

    def _speak_in(self, rows: SizeRows, line: RowLine, numbers: Mapping[str, PerSize]) -> "_Spoken | None":
        """The line in one size; None where the size has no such row."""
        sized = rows.print_line(line) if rows.size is not None else None
        if sized is not None and sized.is_left_out:
            return None
        trees = rows.find_trees(line)
        if trees is None:
            return self._speak_words(line, sized, numbers)
        first, *others = trees
        rest = self.speech.speak(carry_prose(rows.find_rest(line), self.own, self.speech.terms))
        if others or rest:  # what the first row counts to stands before them
            words = [speak_steps(first, self.speech, self.own), speak_count(first, self.speech, self.own)]
            words += [*(speak_row(row, self.speech, self.own) for row in others), rest]
            return _Spoken(speak_label(first, self.speech, self.own), " ".join(filter(None, words)), "")
        return _Spoken(
            speak_label(first, self.speech, self.own),
            speak_steps(first, self.speech, self.own),
            speak_count(first, self.speech, self.own),
        )

    def _speak_words(self, line: RowLine, sized: SizedLine | None, numbers: Mapping[str, PerSize]) -> "_Spoken":
        """The author's own words."""
        text = sized.text if sized is not None else None
        if text is None:
            text = carry_prose(line.text, self.own, self.speech.terms)
        text = self.with_colour.sub(r"\1 colour \2", text)
        row = read_row_text(replace(line, text=text), numbers, ())
        label, body, after = (self.speech.speak(words) for words in (row.label, row.body, row.after))
        count = self.speech.speak(row.count.strip("()[]. "))
        if count.isdigit():
            count += " stitch" if count == "1" else " stitches"
        if line.span.start in self.arranged.silent:
            count = ""
        steps = " ".join(close_sentence(words) for words in (body, after) if words)
        return _Spoken(
            close_sentence(label) if label else "", steps, close_sentence(f"You have {count}") if count else ""
        )


@dataclass(frozen=True, slots=True)
class _Spoken:
    label: str
    steps: str
    count: str

    @property
    def line(self) -> str:
        return " ".join(filter(None, (self.label, self.steps)))

    @property
    def whole(self) -> str:
        return " ".join(filter(None, (self.label, self.steps, self.count)))
