"""`booklet teach`: the smallest version of a pattern that still shows every kind of row."""

import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from booklet.commands.asking import prove_sound
from booklet.commands.showing import FOUND, exit_status, show_findings


@click.command()
@click.argument("source")
@click.option("--out", default="build", show_default=True, type=click.Path(path_type=Path), help="Folder to write to.")
@click.option("--most", type=click.IntRange(1, 1000), help="The most stitches that its widest row may have.")
@click.option("--source-only", is_flag=True, help="Write its source alone, without the booklet.")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts, and write nothing.")
def teach(source: str, out: Path, most: int | None, source_only: bool, as_json: bool) -> None:
    """Write the smallest version of SOURCE that still shows every kind of row, for a class or a video.

    It is a source of its own, proved, with its own chain, counts, measures and yarn, and its booklet.
    """
    from booklet.amounts.amounts import round_floats
    from booklet.answers import teaching
    from booklet.answers.samples import find_sample
    from booklet.pipeline import Order

    full = prove_sound(source)
    try:
        lesson, known = teaching.teach(find_sample(full), out)
    except teaching.UnteachableError as failure:
        show_findings(failure.proof.findings, False, sys.stderr)
        click.echo(f"{failure}; nothing was written", err=True)
        sys.exit(FOUND)
    if most is not None and lesson.stitches > most:
        message = f"the smallest that keeps every row has {lesson.stitches} stitches in its widest"
        raise click.BadParameter(f"{message}; nothing was written", param_hint="--most")
    if as_json:
        click.echo(json.dumps(round_floats(asdict(lesson)), ensure_ascii=False, indent=1))
        return
    paths, findings = teaching.write_lesson(known, Order(out), not source_only)
    for line in teaching.tell_lesson(lesson, known):
        click.echo(line)
    show_findings(findings, False, sys.stderr)
    for path in paths:
        click.echo(path)
    sys.exit(exit_status(findings, False))
