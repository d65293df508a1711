"""Holds every case of the table; those marked as not yet read must still fail."""

from collections.abc import Iterator

import pytest

from .table import MODERN, VINTAGE, Case, compare, list_cases


def list_params() -> Iterator[object]:
    for case in list_cases():
        marks = [pytest.mark.xfail(strict=True, reason=case.late)] if case.late else []
        yield pytest.param(case, id=case.name, marks=marks)


@pytest.mark.parametrize("case", list(list_params()))
def test_a_form_is_read_as_meant(case: Case) -> None:
    differences = compare(case)
    assert not differences, "\n".join((case.source, *differences))


def test_every_form_has_a_case() -> None:
    numbers = {int(name[1:]) for case in list_cases() for name in case.ids}
    assert numbers == {*MODERN, *VINTAGE}
