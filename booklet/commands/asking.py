"""What the commands that ask something of a pattern share: a sound proof, and options read with their refusals."""

import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

import click

from booklet.commands.showing import exit_status, show_findings
from booklet.findings.render import has_errors

if TYPE_CHECKING:
    from booklet.answers.supposing import Known

T = TypeVar("T")


def prove_sound(source: str) -> "Known":
    """The proved pattern; where it is not sound, what was found is shown and the command ends."""
    from booklet.answers.supposing import know
    from booklet.pipeline import prove_file

    proof = prove_file(source)
    known = know(proof)
    if known is None or has_errors(proof.findings):
        show_findings(proof.findings, False, sys.stderr)
        click.echo("nothing is answered until the errors are gone", err=True)
        sys.exit(exit_status(proof.findings, False))
    return known


def ask_each(option: str, texts: Sequence[str], answer: Callable[[str], T]) -> list[T]:
    """The answer to each text of an option; one that cannot be read or does not fit is a wrong command line."""
    from booklet.reading.quantities import UnreadError

    answers: list[T] = []
    for text in texts:
        try:
            answers.append(answer(text))
        except UnreadError as unread:
            hint = "; ".join(word for word in (unread.expected and f"expected: {unread.expected}", unread.fix) if word)
            message = f"{unread.message}; {hint}" if hint else unread.message
            raise click.BadParameter(message, param_hint=option) from None
    return answers
