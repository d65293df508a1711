"""`booklet rows`: the usual shapes as rows in ordinary notation, to be pasted into a pattern."""

from collections.abc import Callable, Iterable
from typing import Any

import click

STITCHES = ("sc", "hdc", "dc", "tr")


@click.group()
def rows() -> None:
    """Write the rows of a usual shape, to paste into a pattern: a circle, a crown, a square …

    Stitches are asked for by their US names; with --terms UK the rows are written in UK terms.
    """


def _with_stitch(usual: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """The options that every shape has: the stitch, and the terms the rows are written in."""

    def add(command: Callable[..., None]) -> Callable[..., None]:
        command = click.option("--terms", type=click.Choice(["US", "UK"]), default="US", show_default=True)(command)
        return click.option(
            "--stitch", "kind", type=click.Choice(STITCHES), default=usual, show_default=True, help="US name."
        )(command)

    return add


_ROUNDS = click.option("--rounds", type=int, required=True, help="How many rounds.")
_SPIRAL = click.option("--spiral", is_flag=True, help="Rounds that are not joined.")
_STAGGER = click.option("--stagger", is_flag=True, help="Move the increases, so that no corners show.")
_BY = click.option("--by", type=int, default=0, help="Increases in a round, instead of the rule of thumb.")
_GAUGE = click.option("--gauge", default="", help='Such as "13 sts and 10 rows = 10 cm".')


@rows.command()
@_with_stitch("sc")
@click.option("--rounds", type=int, default=0, help="How many rounds.")
@click.option("--across", default="", metavar="LENGTH", help="Or how wide it is to be; needs --gauge.")
@_GAUGE
@_BY
@_SPIRAL
@_STAGGER
def circle(kind: str, terms: str, rounds: int, across: str, gauge: str, by: int, spiral: bool, stagger: bool) -> None:
    """A flat circle: 6 sc, 8 hdc or 12 dc more in each round."""
    from booklet.shapes.planning import count_rounds
    from booklet.shapes.rounds import list_circle

    if across:
        rounds = _ask(count_rounds, across, gauge)
    _print(lambda stitch: list_circle(stitch, rounds, by, spiral, stagger), kind, terms)


@rows.command()
@_with_stitch("hdc")
@click.option("--around", type=int, default=0, help="Stitches round the finished crown.")
@click.option("--even", type=int, default=None, help="Rounds without increases below it.")
@click.option("--head", default="", metavar="LENGTH", help="Or the measure of the head; needs --gauge.")
@click.option("--multiple", default=1, help="What the stitches round are to be a multiple of.")
@_GAUGE
@_BY
@_SPIRAL
@_STAGGER
def crown(
    kind: str,
    terms: str,
    around: int,
    even: int | None,
    head: str,
    multiple: int,
    gauge: str,
    by: int,
    spiral: bool,
    stagger: bool,
) -> None:
    """A hat from the crown down: a circle that grows to the stitches round it, then even rounds.

    For a head, the hat is 1 in (2.5 cm) smaller and four tenths of the head deep.
    """
    from booklet.shapes.planning import plan_crown
    from booklet.shapes.rounds import list_crown

    if head:
        plan = _ask(plan_crown, head, gauge, multiple)
        around, even = plan.around, plan.even if even is None else even
        click.echo(plan.words, err=True)
    _print(lambda stitch: list_crown(stitch, around, even or 0, by, spiral, stagger), kind, terms)


@rows.command()
@_with_stitch("hdc")
@click.argument("source", metavar="SOURCE")
@click.argument("number", metavar="NUMBER")
@_BY
def crowns(kind: str, terms: str, source: str, number: str, by: int) -> None:
    """The crown of the hat SOURCE in all its sizes, up to the stitches that its number NUMBER has in each.

    The rows are in the pattern's own terms.
    """
    from booklet.shapes.rounds import list_crowns

    proof = _prove(source)
    sized = proof.sized.numbers.get(number)
    if sized is None:
        known = ", ".join(proof.sized.numbers) or "none"
        raise click.BadParameter(f"no number {number!r} can be worked out: there is {known}", param_hint="NUMBER")
    names, around = proof.pattern.size_names, sized.values
    _print(lambda stitch: list_crowns(stitch, around, names, number, by), kind, proof.pattern.terms)


@rows.command()
@_with_stitch("dc")
@_ROUNDS
def square(kind: str, terms: str, rounds: int) -> None:
    """A solid square: 16 dc, 8 sc, about 10 hdc or 20 tr more in each round."""
    from booklet.shapes.corners import list_square

    _print(lambda stitch: list_square(stitch, rounds), kind, terms)


@rows.command()
@_with_stitch("dc")
@_ROUNDS
def granny(kind: str, terms: str, rounds: int) -> None:
    """The granny square: groups of three, 12 dc more in each round."""
    from booklet.shapes.corners import list_granny

    _print(lambda stitch: list_granny(stitch, rounds), kind, terms)


@rows.command()
@_with_stitch("dc")
@_ROUNDS
def hexagon(kind: str, terms: str, rounds: int) -> None:
    """A solid hexagon: 12 dc, about 7 sc, 9 hdc or 18 tr more in each round."""
    from booklet.shapes.corners import list_hexagon

    _print(lambda stitch: list_hexagon(stitch, rounds), kind, terms)


@rows.command()
@_with_stitch("sc")
@click.option("--around", type=int, default=0, help="Stitches round its middle.")
@click.option("--across", default="", metavar="LENGTH", help="Or how wide it is to be; needs --gauge.")
@_GAUGE
@click.option("--even", type=int, default=None, help="Even rounds in the middle; as many as growing ones if not given.")
@click.option("--joined", is_flag=True, help="Join every round, instead of a spiral.")
def sphere(kind: str, terms: str, around: int, across: str, gauge: str, even: int | None, joined: bool) -> None:
    """A ball: growing rounds, even ones, and the growing ones backwards."""
    from booklet.shapes.planning import plan_sphere
    from booklet.shapes.rounds import list_sphere
    from booklet.shapes.stitches import RULE_OF_THUMB

    if across:
        around, planned = _ask(plan_sphere, across, gauge, RULE_OF_THUMB[kind])
        even = planned if even is None else even
    _print(lambda stitch: list_sphere(stitch, around, even, not joined), kind, terms)


@rows.command()
@_with_stitch("sc")
@click.option("--chains", type=int, required=True, help="The chain it is worked round.")
@_ROUNDS
def oval(kind: str, terms: str, chains: int, rounds: int) -> None:
    """A flat oval in a spiral round both sides of a chain."""
    from booklet.shapes.chains import list_oval

    _print(lambda stitch: list_oval(stitch, chains, rounds), kind, terms)


@rows.command()
@_with_stitch("sc")
@click.option("--sts", type=int, required=True, help="Stitches of every row.")
@click.option("--rows", "number", type=int, required=True, help="How many rows.")
@click.option("--chain-counts/--chain-does-not-count", "counts", default=None, help="The turning chain as a stitch.")
def flat(kind: str, terms: str, sts: int, number: int, counts: bool | None) -> None:
    """A flat piece: its chain, its first row, and rows of the same stitch."""
    from booklet.shapes.chains import list_flat

    _print(lambda stitch: list_flat(stitch, sts, number, counts), kind, terms)


@rows.command()
@click.argument("source", metavar="SOURCE")
@click.argument("name", required=False, default="")
def shaping(source: str, name: str) -> None:
    """The rows of the shaping called NAME in the pattern SOURCE, in all its sizes.

    Without NAME, each shaping of the pattern in one sentence.
    """
    from booklet.shapes.sides import list_shaping
    from booklet.sizing.shaping import say_shaping

    proof = _prove(source)
    known = {each.rule.name: each for each in proof.sized.shaping}
    if not name:
        for each in known.values():
            click.echo(f"{each.rule.name}: {say_shaping(each)}")
        return
    if name not in known:
        wrong = [finding.message for finding in proof.findings if finding.code.startswith("shaping-")]
        reason = "; ".join(wrong) or f"there is {' and '.join(known) or 'none'}"
        raise click.BadParameter(f"no shaping {name!r} can be worked out: {reason}", param_hint="NAME")
    chosen, pattern = known[name], proof.pattern
    _print(lambda stitch: list_shaping(chosen, pattern.size_names, stitch), chosen.rule.stitch, "", pattern.terms)


def _prove(source: str) -> Any:
    """The proof of a pattern that can be read."""
    from booklet.pipeline import prove_file

    proof = prove_file(source)
    if proof.sized is None or proof.pattern is None:
        raise click.BadParameter(f"{source} cannot be read", param_hint="SOURCE")
    return proof


def _ask(plan: Callable[..., Any], *values: object) -> Any:
    from booklet.reading.quantities import UnreadError
    from booklet.shapes.stitches import ShapeError

    try:
        return plan(*values)
    except (ShapeError, UnreadError) as wrong:
        raise click.UsageError(str(wrong)) from None


def _print(write: Callable[[Any], Iterable[str]], kind: str, terms: str, own_terms: str = "") -> None:
    """The lines of a shape, an empty line between them; nothing where it cannot be made.

    `own_terms` are those that the stitch's own name is in, where the pattern gives it.
    """
    from booklet.shapes.stitches import ShapeError, find_stitch, name_stitch

    try:
        stitch = find_stitch(kind, own_terms) if own_terms else name_stitch(kind, terms)
        lines = list(write(stitch))
    except ShapeError as wrong:
        raise click.UsageError(str(wrong)) from None
    click.echo("\n\n".join(lines))
