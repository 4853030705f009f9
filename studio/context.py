from django.conf import settings
from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from .models import Studio


def studio(request: HttpRequest) -> dict:
    """Name the studio on every page, with no query where a page does not; and the languages."""
    return {"studio": SimpleLazyObject(Studio.get), "languages": settings.LANGUAGES}
