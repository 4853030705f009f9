from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from .models import Studio


def studio(request: HttpRequest) -> dict:
    """Name the studio on every page, with no query where a page does not."""
    return {"studio": SimpleLazyObject(Studio.get)}
