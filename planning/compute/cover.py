"""Whether an insurance holds on every day of a wedding, and where it is."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from .ready_values import Known, Policy
from .values import N_

# The kinds that a studio may hold. Which of them it needs is for it and its insurer to say.
KINDS = {
    "liability": N_("Public liability"),
    "indemnity": N_("Professional indemnity"),
    "equipment": N_("Equipment"),
    "employer": N_("Employer’s liability"),
    "vehicle": N_("Vehicle, with business use"),
    "travel": N_("Travel and health abroad"),
}
USUAL = ("liability", "indemnity", "equipment")  # common practice, no source


def cover(
    policies: Iterable[Policy], kind: str, dates: Iterable[date], countries: frozenset[str]
) -> Known:
    """What the policies of that kind say of these dates in these countries (ISO 3166 codes).

    Where no country is known, only the dates are looked at.
    """
    mine = [policy for policy in policies if policy.kind == kind]
    if not mine:
        return Known(False, N_("No policy of this kind is noted under Insurance."))
    on = sorted(dates)
    for day in on:
        for country in sorted(countries) or [""]:
            if not any(holds(policy, day, country) for policy in mine):
                return _missing(mine, day, country)
    held = [policy for policy in mine if on and policy.starts <= on[-1] <= policy.ends]
    last = max(held or mine, key=lambda policy: policy.ends)
    values = {"insurer": last.insurer, "until": last.ends}
    return Known(bool(on), N_("%(insurer)s, until %(until)s."), values)


def holds(policy: Policy, day: date, country: str = "") -> bool:
    where = not policy.countries or not country or country in policy.countries
    return where and policy.starts <= day <= policy.ends


def _missing(mine: list[Policy], day: date, country: str) -> Known:
    """Why no policy holds on a day in a country."""
    elsewhere = next((policy for policy in mine if holds(policy, day)), None)
    if elsewhere:
        message = N_("%(insurer)s does not hold in this country: %(country)s.")
        return Known(False, message, {"insurer": elsewhere.insurer, "country": country})
    here = [policy for policy in mine if not policy.countries or country in policy.countries]
    before = [policy for policy in here or mine if policy.ends < day]
    if before:
        last = max(before, key=lambda policy: policy.ends)
        message = N_("%(insurer)s ends on %(until)s, before %(day)s.")
        return Known(False, message, {"insurer": last.insurer, "until": last.ends, "day": day})
    first = min(here or mine, key=lambda policy: policy.starts)
    message = N_("%(insurer)s begins on %(from)s, after %(day)s.")
    return Known(False, message, {"insurer": first.insurer, "from": first.starts, "day": day})
