"""A form: keys with values, where a short form of them is spread out before it is checked."""

from collections.abc import Callable
from typing import Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator

from booklet.reading.fields import describe, refuse
from booklet.reading.quantities import UnreadError


class Form(BaseModel):
    """Keys with values; no key beyond those listed."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    expected: ClassVar[str] = "keys with values"

    @classmethod
    def expand(cls, value: object) -> object:
        """The full form of a short one; anything else unchanged."""
        return value

    @model_validator(mode="before")
    @classmethod
    def _spread(cls, value: object) -> object:
        try:
            spread = value if isinstance(value, dict) else cls.expand(value)
        except UnreadError as unread:
            raise refuse(unread) from None
        if not isinstance(spread, dict):
            raise refuse(UnreadError(f"{quote(value)} stands where keys are expected", cls.expected))
        return spread


def quote(value: object) -> str:
    return f'"{value[:40]}"' if isinstance(value, str) else describe(value)


def before(spread: Callable[[Any], object]) -> BeforeValidator:
    """Spreads a short form out before the value is checked."""

    def validate(value: object) -> object:
        try:
            return spread(value)
        except UnreadError as unread:
            raise refuse(unread) from None

    return BeforeValidator(validate)
