"""Guest-minutes as they are shown, so that a difference is that of the figures beside it."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal


def shown(minutes: float, digits: int = 0) -> Decimal:
    """Guest-minutes as printed, halves away from 0, as Django's floatformat has it."""
    return Decimal(str(minutes)).quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def more_shown(minutes: float, than: float, digits: int = 0) -> Decimal:
    """How many more guest-minutes as the two printed figures say; less than 0 when fewer."""
    return shown(minutes, digits) - shown(than, digits)
