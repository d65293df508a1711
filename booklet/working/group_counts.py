"""What makers count that is no single stitch: shells, petals, blocks of filet, corners, openings, increases.

A pattern seldom says what it counts as a petal. So several ways are tried, all that a maker might mean, and a number
that fits one of them is right. Where a row has nothing that could be meant, nothing is compared.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from booklet.model.tree import What
from booklet.model.work import Fabric
from booklet.working.kinds import is_of_kind, is_own
from booklet.working.looking import strip_beginning
from booklet.working.walk import find_corner_spaces, find_corners

Form = tuple[str, ...]  # the stitches of a group in order, "ch" for each run of chains between them
NO_FORMS: Mapping[str, Form] = {}
FEW = 12  # corners of a motif, openings of a garment: more spaces than that are a mesh
MOST_FORMS = 5  # different groups in one row, of which any may be meant together
GATHERS = re.compile(r"(\d+)tog$")
GATHERED = ("cl", "bobble", "puff", "pc")
SHELLS = ("shell", "v-st")
FLOWERS = ("petal", "scallop", "point", "wave", "group")
PLACES = ("block", "square", "opening", "gap", "repeat", "corner")
COUNTED = (*SHELLS, *FLOWERS, *GATHERED, *PLACES, "inc", "dec", "inv dec")
UNCOUNTED = ("motif", "panel", "tile", "spoke", "ridge", "spine", "bump", "half", "side")


@dataclass(frozen=True, slots=True)
class Possible:
    """`numbers` that are right for what is counted, the likeliest first; with `shares`, so is a whole part of one.

    Two clusters may make one petal.
    """

    numbers: tuple[int, ...]
    shares: bool = False

    def has(self, number: int) -> bool:
        return number in self.numbers or (
            self.shares and number > 0 and any(of > number and of % number == 0 for of in self.numbers)
        )


def list_forms(fabric: Fabric) -> list[Form]:
    """The stitches made in one place, one after the other, of each place that holds several or holds chains."""
    forms: list[Form] = []
    placed = ((_place(fabric, at), at) for at, stitch in enumerate(fabric.stitches) if stitch.top >= 0)
    for place, run in groupby(placed, key=lambda entry: entry[0]):
        kinds: list[str] = []
        for _, at in run:
            stitch = fabric.stitches[at]
            kinds.append(stitch.kind)
            if stitch.kind != "ch" and _has_chains(fabric, stitch.top):
                kinds.append("ch")
        if place is not None and sum(kind != "ch" for kind in kinds) > (place[0] != -1 or len(kinds) < 2):
            forms.append(tuple(kinds))
    return forms


def _place(fabric: Fabric, at: int) -> tuple[int, ...] | None:
    """Where a stitch is worked, alike for all of one group; None for chains between groups."""
    stitch = fabric.stitches[at]
    if stitch.cluster >= 0:
        return (-1, stitch.cluster)
    if stitch.kind == "ch" or not stitch.into:
        return None
    return stitch.into


def _has_chains(fabric: Fabric, top: int) -> bool:
    """Is the stitch a chain at the start with chains beyond it: "ch 4 (counts as dc and ch 1)"?"""
    site, after = fabric.sites[top], fabric.sites[top + 1 : top + 2]
    return site.chains > 0 and any(other.kind == "ch" and other.run > 0 for other in after)


def list_possible(fabric: Fabric, what: What, forms: Mapping[str, Form] = NO_FORMS) -> Possible | None:
    """What a count of such a kind may be; None where that is not known. `forms` are the groups that are defined."""
    if what.kind in ("inc", "dec", "inv dec"):
        return _changes(fabric, what.kind)
    if what.kind == "corner":
        return _corners(fabric)
    if what.kind in ("block", "tile") and "block" in fabric.groups:
        return Possible((fabric.groups["block"],))
    if what.kind in ("block", "square"):
        return _squares(fabric, what.kind)
    if what.kind in ("opening", "gap"):
        runs = [number for _, number in sorted(fabric.spaces.items(), reverse=True)]
        few = what.kind == "gap" or (len(runs) == 1 and runs[0] <= FEW)
        return Possible((sum(runs), *runs)) if runs and few else None
    if what.kind == "repeat":
        return Possible(tuple(_repeats(fabric))) if fabric.repeats else None
    defined = _defined(fabric, what.kind, forms)
    if defined is not None:
        return defined
    if what.kind in GATHERED:
        return _gathered(fabric, what.kind)
    if what.kind in SHELLS:
        return _grouped(fabric, what)
    return (_grouped(fabric, what) or _repeated(fabric)) if what.kind in FLOWERS else None


def _defined(fabric: Fabric, kind: str, forms: Mapping[str, Form]) -> Possible | None:
    """A group that the pattern defines: those worked by name, and those written out that are just the same."""
    names = [name for name in fabric.groups if name == kind or strip_beginning(name) == kind]
    named = sum(fabric.groups[name] for name in names)
    form = forms.get(kind)
    if form is None or len(form) < 2:
        return Possible((named, *(fabric.groups[name] for name in names))) if names else None
    made = list_forms(fabric)
    written = made.count(form) if "ch" in form or len(form) > 2 else 0
    if not names and not written:
        return None
    begun = written + 1 if made and made[0] != form and made[0][0] == form[0] else written
    return Possible((max(named, written), named, written, begun))


def _gathered(fabric: Fabric, kind: str) -> Possible | None:
    """Clusters and the like: under their name, or as "dc3tog"; the first of a round may be begun with chains."""
    made = sum(number for stitch, number in fabric.counts.items() if is_of_kind(stitch, kind))
    together = sum(number for stitch, number in fabric.counts.items() if stitch.endswith("tog"))
    apart = sum(n for stitch, n in fabric.counts.items() if stitch.endswith("tog") and not is_of_kind(stitch, kind))
    numbers = [number for number in dict.fromkeys((made, together, made + apart)) if number] or _named_otherwise(fabric)
    begun = any(site.chains > 1 for site in fabric.sites[:1]) and not _begins_with_smaller(fabric)
    return Possible((*numbers, *(number + 1 for number in numbers if begun))) if numbers else None


def _begins_with_smaller(fabric: Fabric) -> bool:
    """ "Ch 2, dc2tog in same sp, …, dc3tog in next sp": the chain is a leg of the first cluster, and none besides."""
    first = next((stitch.kind for stitch in fabric.stitches if GATHERS.search(stitch.kind)), "")
    sizes = [int(found[1]) for kind in (first, *fabric.counts) if (found := GATHERS.search(kind))]
    return bool(sizes) and sizes[0] == max(sizes) - 1


def _named_otherwise(fabric: Fabric) -> list[int]:
    """What the pattern defines under names of its own, any of them together: "MB", counted as bobbles."""
    own = {kind: number for kind, number in fabric.counts.items() if is_own(kind)}
    groups = {name: number for name, number in fabric.groups.items() if name != "block"}
    return _sums({(name,): number for name, number in (own | groups).items()})


def _grouped(fabric: Fabric, what: What) -> Possible | None:
    """Groups of several stitches in one place: all of one form, or of several forms together."""
    forms = list_forms(fabric)
    if what.kind in SHELLS:
        forms = [form for form in forms if len(form) > 2] or forms
    if what.chains:
        return _of_size([*forms, *_list_in_ring(fabric)], what.chains)
    whole = Counter(forms)
    parts = Counter(run for form in forms for run in _split(form) if len(run) > 1)
    numbers = [*_sums(whole), *_sums(parts)]
    if not numbers:
        return None
    return Possible(tuple(dict.fromkeys(numbers)), shares=what.kind in FLOWERS)


def _list_in_ring(fabric: Fabric) -> Iterator[Form]:
    """The stitches between two runs of chains that go into a ring one by one, as after "ch 3 (counts as dc), 2 dc"."""
    in_ring = [not stitch.into and stitch.cluster < 0 and stitch.kind != "ch" for stitch in fabric.stitches]
    made = ((alone, stitch) for alone, stitch in zip(in_ring, fabric.stitches, strict=True) if stitch.top >= 0)
    for alone, run in groupby(made, key=lambda entry: entry[0]):
        if alone:
            yield tuple(stitch.kind for _, stitch in run)


def _of_size(forms: Sequence[Form], size: int) -> Possible | None:
    """Groups of so many stitches; one begun by a chain that is no stitch lacks one."""
    runs = [len(run) for form in forms for run in _split(form)]
    made = runs.count(size)
    begun = bool(runs) and (runs[0] == size - 1 or runs[-1] == size - 1)
    return Possible((made, made + begun)) if made else None


def _split(form: Form) -> Iterator[Form]:
    """The stitches between the chains of a group."""
    for is_chain, run in groupby(form, key=lambda kind: kind == "ch"):
        if not is_chain:
            yield tuple(run)


def _sums(numbers: Mapping[Form, int]) -> list[int]:
    """Each kind of group by itself, the most first, and any kinds together."""
    most = sorted(numbers.values(), reverse=True)[:MOST_FORMS]
    sums = {0}
    for number in most:
        sums |= {total + number for total in sums}
    return [*most, *sorted(sums - {0, *most})]


def _repeats(fabric: Fabric) -> list[int]:
    """How often each repeat is worked; once more where stitches before it may be the first time."""
    return [number for times, led in fabric.repeats for number in ((times, times + 1) if led else (times,))]


def _repeated(fabric: Fabric) -> Possible | None:
    """Petals made over several places: one each time round."""
    return Possible(tuple(_repeats(fabric)), shares=True) if fabric.repeats else None


def _corners(fabric: Fabric) -> Possible | None:
    """Corners by their spaces or by three and more stitches in one place; in a ring every space is one."""
    spaces = sum(fabric.sites[index].at == 0 for index in find_corner_spaces(fabric))
    longest = max(fabric.spaces, default=0)
    numbers = [
        number for number in (spaces, len(find_corners(fabric.stitches)), fabric.spaces.get(longest, 0)) if number
    ]
    return Possible((*numbers, *fabric.spaces.values())) if numbers else None


def _changes(fabric: Fabric, kind: str) -> Possible | None:
    """Increases as places with several stitches, or as the stitches gained there; decreases likewise."""
    if kind == "inc":
        sizes = [len(form) - form.count("ch") for form in list_forms(fabric)]
        more = [size for size in sizes if size > 1]
        return Possible((len(more), sum(more) - len(more))) if more else None
    gathered = {int(name[-4]): number for name, number in fabric.counts.items() if name.endswith("tog")}
    fewer = sum(number * (size - 1) for size, number in gathered.items())
    return Possible((sum(gathered.values()), fewer)) if gathered else None


def _squares(fabric: Fabric, kind: str) -> Possible | None:
    """Filet: a post, then a space of k chains or a block of k stitches and the next post; k is that of the spaces."""
    kinds = {name for name in fabric.counts if name not in ("ch", "sl st")}
    if len(fabric.spaces) != 1 or len(kinds) != 1:
        return None
    ((chains, spaces),) = fabric.spaces.items()
    stitches = sum(fabric.counts[name] for name in kinds)
    squares, rest = divmod(stitches + chains * spaces - 1, chains + 1)
    if rest or chains > 3 or list_forms_of_chains(fabric):
        return None
    return Possible((squares - spaces,)) if kind == "block" else Possible((squares, spaces, squares - spaces))


def list_forms_of_chains(fabric: Fabric) -> list[Form]:
    """Groups in one place that hold chains; filet has none."""
    return [form for form in list_forms(fabric) if "ch" in form and form[:1] != ("ch",) and len(form) > 2]


def count_in_groups(fabric: Fabric, kind: str) -> set[int]:
    """The stitches of a kind in groups made in one place: in all of them, in those of three and more, and so on."""
    forms = list_forms(fabric)
    return {
        sum(is_of_kind(made, kind) for form in forms for made in form if made != "ch" and len(form) >= least)
        for least in {len(form) for form in forms} or {0}
    }
