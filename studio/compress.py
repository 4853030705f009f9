"""Pages and scripts go compressed over the wire; pictures, papers and fonts are so already."""

from __future__ import annotations

from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.middleware.gzip import GZipMiddleware

TEXT = ("text/", "application/json", "image/svg+xml")


class CompressText(GZipMiddleware):
    """Django's own, which hides the length of secrets, for what is text."""

    def process_response(
        self, request: HttpRequest, response: HttpResponseBase
    ) -> HttpResponseBase:
        if response.headers.get("Content-Type", "").startswith(TEXT):
            return super().process_response(request, response)
        return response
