"""A row's tree in words: where a repeat begins and ends is said, and so is how often it is worked.

What a step is called comes from the printer of rows, so that a spoken row names the same stitches, places
and numbers as the printed one; only what notation says by brackets and stars is put into sentences.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.findings import join_words
from booklet.model.parsed import Row, Stated
from booklet.model.tree import (
    SPACE,
    Aside,
    Chain,
    Free,
    Group,
    KeepColours,
    Node,
    Repeat,
    SkippedCount,
    TakeColour,
    Work,
)
from booklet.pages.spoken_text import Speech, tidy
from booklet.rows.print import ROUNDS, goes_on, print_step
from booklet.rows.print_labels import print_label
from booklet.rows.print_names import Manner, is_one, print_number, print_what
from booklet.rows.print_places import print_target
from booklet.rows.print_repeats import name_times, print_often


def speak_row(row: Row, speech: Speech, written_in: str) -> str:
    """`Round 3. Chain 1. Work these steps 8 times: …; that ends the repeat. … You have 24 half double crochets.`

    `written_in` are the terms of the author's own words.
    """
    parts = (speak_label, speak_steps, speak_count)
    return " ".join(filter(None, (part(row, speech, written_in) for part in parts)))


def speak_label(row: Row, speech: Speech, written_in: str) -> str:
    """`Round 3.`; "" where the row has no label."""
    label = _make_speaker(row, speech, written_in).label(row)
    return close_sentence(label) if label else ""


def speak_steps(row: Row, speech: Speech, written_in: str) -> str:
    """The row without its label and count: each step a sentence."""
    steps = [_part_count(step, row.stated) for step in row.steps]
    sentences = _make_speaker(row, speech, written_in).sentences(steps)
    return " ".join(close_sentence(sentence) for sentence in sentences if sentence)


def speak_count(row: Row, speech: Speech, written_in: str) -> str:
    """`You have 24 half double crochets.`; "" where the row says no count."""
    count = _make_speaker(row, speech, written_in).count(row.stated)
    return close_sentence(count) if count else ""


def _make_speaker(row: Row, speech: Speech, written_in: str) -> "_Speaker":
    in_rounds = row.label.kind in ("round", "r") or (not row.label.text and ROUNDS.search(row.words.text) is not None)
    return _Speaker(speech, Manner(speech.terms, None, in_rounds, written_in, row.label.places))


class _Speaker:
    def __init__(self, speech: Speech, manner: Manner) -> None:
        self.speech, self.manner = speech, manner
        self.depth = 0  # of repeats in repeats

    def label(self, row: Row) -> str:
        words = print_label(replace(row.label, count=0), self.manner)
        if row.label.kind == "r":  # "R5" of a toy
            words = f"{'Rnds' if len(row.label.numbers) > 1 else 'Rnd'} {words[1:]}"
        return self.speech.speak(words)

    def count(self, stated: Stated | None) -> str:
        """`You have 12 double crochets and 11 chain-1 spaces`"""
        if stated is None:
            return ""
        items = [
            self.speech.speak(f"{print_number(count, self.manner)} {print_what(what, count, self.manner)}")
            for count, what in stated.items
        ]
        if stated.series:
            items = [*(print_number(count, self.manner) for count in stated.series[:-1]), *items]
        counting = {None: "", True: ", counting the turning chain", False: ", not counting the turning chain"}
        words = f"{join_words(items)}{counting[stated.includes_chain]}"
        return f"These add {words}" if stated.plus else f"You have {words}"

    def sentences(self, steps: Sequence[Node]) -> list[str]:
        """Each step as a sentence, without its full stop."""
        return self._list(steps)

    def _list(self, steps: Sequence[Node]) -> list[str]:
        said: list[str] = []
        colour = ""
        for at, step in enumerate(steps):
            if isinstance(step, TakeColour) and _is_bare_number(steps[at + 1 : at + 2]):
                colour = step.letter
                continue
            words = self._step(step)
            behind = 2 if at > 1 and isinstance(steps[at - 1], SkippedCount) else 1  # what is said of the chains
            if at and len(said) >= behind and goes_on(steps[at - behind], step):
                said[-behind] += f" and {words[words.index('in each') :]}"
                continue
            if colour:
                words, colour = self.speech.speak(f"{words} in {self._colour_word} {colour}"), ""
            if words and said and isinstance(step, Aside) and words[:1].islower():
                said[-1] += f", {words}"  # "fasten off, leaving a long tail" is one sentence
            elif words:
                said.append(words)
        return said

    @property
    def _colour_word(self) -> str:
        return "colour"

    def _step(self, step: Node) -> str:
        if isinstance(step, Repeat):
            return self._repeat(step)
        if isinstance(step, Group):
            return self._group(step)
        if isinstance(step, Chain) and step.counts is not None and not step.free:
            return self._chain(step)
        if isinstance(step, TakeColour):
            words = f"{self._colour_word} {step.letter}"
            return f"change to {words} in the last stitch" if step.late else f"with {words}"
        if isinstance(step, Work) and step.stitch == "st" and step.where.bare:
            number = print_number(step.where.count, self.manner)
            return f"{number} stitch{'' if is_one(step.where.count, self.manner) else 'es'}"
        words = print_step(step, self.manner)
        if isinstance(step, Aside | Free):
            words = words.strip("()")
        if isinstance(step, KeepColours):  # as all of this edition spells it
            words = words.replace("colors", f"{self._colour_word}s")
        return self.speech.speak(words)

    def _chain(self, step: Chain) -> str:
        chain = f"chain {print_number(step.count, self.manner)}"
        name = "stitch"
        if step.stands_for == SPACE:
            return self.speech.speak(f"{chain}, which counts as a chain-{step.then} space")
        if step.stands_for:
            name = self.speech.name_stitch(step.stands_for)
        counts = f"counts as 1 {name}" if step.counts else "does not count as a stitch"
        then = f" and chain {step.then}" if step.then else ""
        return self.speech.speak(f"{chain}, which {counts}{then}{' throughout' if step.throughout else ''}")

    def _group(self, step: Group) -> str:
        """`in next corner work 2 double crochets, then chain 2, then 2 double crochets, all in the same place`"""
        place = self.speech.speak(print_target(step.where, self.manner))
        inner = self._list(step.steps)
        if len(step.steps) == 1 and isinstance(step.steps[0], Repeat):
            return f"{place}, {inner[0]}" if inner else place
        return f"{place}, work {', then '.join(inner)}, all in the same place"

    def _repeat(self, step: Repeat) -> str:
        """`work these steps 8 times: …; then …; that ends the repeat`"""
        self.depth += 1
        inner = self._list(step.steps)
        self.depth -= 1
        often = self._often(step)
        if len(inner) == 1 and not step.drop and not step.instead and ";" not in inner[0]:
            return f"{inner[0]}, {often}"
        words = (
            f"work these steps {often}: {'; then '.join(inner)}; that ends the {'inner ' if self.depth else ''}repeat"
        )
        if step.drop:
            left = "; then ".join(self._list(step.steps[-step.drop :]))
            words += f". In the last repeat leave out: {left}"
        if step.instead:
            words += f". At the end of the last repeat work: {'; then '.join(self._list(step.instead))}"
        return words

    def _often(self, step: Repeat) -> str:
        if step.until == "times":
            return self.speech.speak(name_times(step.count, self.manner))
        if step.until == "more":
            return self.speech.speak(f"once, then {print_often(step, self.manner)}")
        if step.until == "open":
            return self.speech.speak(f"and repeat them {name_times(step.count, self.manner)}")
        if step.until == "end":
            return "again and again to the end of the " + ("round" if self.manner.in_rounds else "row")
        if step.until == "last" and step.count != (0,):
            left = f"{print_number(step.count, self.manner)} {print_what(step.what, step.count, self.manner)}"
            one = is_one(step.count, self.manner)
            return self.speech.speak(f"again and again until {left} {'is' if one else 'are'} left")
        return self.speech.speak(f"again and again {print_often(step, self.manner)}")


def _part_count(step: Node, stated: Stated | None) -> Node:
    """A row that is left to the maker holds its count among its words; it is said behind them."""
    if isinstance(step, Free) and stated is not None and step.span.start < stated.span.start < step.span.end:
        return replace(step, text=step.span.sub(0, stated.span.start - step.span.start).text.rstrip(" .-–—("))
    return step


def _is_bare_number(steps: Sequence[Node]) -> bool:
    return any(isinstance(step, Work) and step.stitch == "st" and step.where.bare for step in steps)


def close_sentence(sentence: str) -> str:
    """A capital in front, a full stop behind."""
    sentence = tidy(sentence)
    sentence = sentence[:1].upper() + sentence[1:]
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."
