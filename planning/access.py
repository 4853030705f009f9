"""Who of the studio may open what. Strangers are led to the sign-in before this is asked.

A page that nobody wrote down here is a photographer's: a new one is never open to a second
photographer by mistake.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import cache
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.functional import SimpleLazyObject

from studio.member_models import Role, role_of

from .people_models import Assigned

# The least that an account must be, for each page that is not simply a photographer's.
LEAST = {
    "logout": Role.NOBODY,
    "password": Role.SECOND,
    "season": Role.SECOND,  # theirs lists only the weddings they are put down for
    "second_photographer": Role.SECOND,
    "studio": Role.OWNER,
    "people": Role.OWNER,
    "person": Role.OWNER,
    "erase": Role.OWNER,
}
log = logging.getLogger("foreday.access")


class EachTheirPart:
    """Gives every request its `role`, and refuses the pages that are not that role's."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        # Lazy: a page that asks nobody's role asks no database.
        request.role = role = cache(lambda: role_of(request.user))
        request.plans_weddings = SimpleLazyObject(lambda: role() >= Role.PHOTOGRAPHER)
        request.owns_studio = SimpleLazyObject(lambda: role() >= Role.OWNER)
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable, args: Any, kwargs: dict[str, Any]
    ) -> None:
        """`Http404` for a wedding that is not theirs, `PermissionDenied` for a page that is not."""
        if not getattr(view, "login_required", True):
            return  # a couple's page or the sign-in, which ask for themselves
        name = request.resolver_match.url_name
        if request.role() < LEAST.get(name, Role.PHOTOGRAPHER):
            log.warning("refused %s to account %s", name, request.user.pk)
            raise PermissionDenied
        public_id = kwargs.get("public_id")
        if public_id and not may_open(request, public_id):
            log.warning("refused %s of %s to account %s", name, public_id, request.user.pk)
            raise Http404("wedding")


def may_open(request: HttpRequest, public_id: str) -> bool:
    """Photographers plan together; a second photographer has what they are put down for."""
    theirs = Assigned.objects.filter(user=request.user.pk, wedding__public_id=public_id)
    return bool(request.plans_weddings) or theirs.exists()
