"""What a page says once of what was done on the page before it.

In a cookie that browsers guard online (OWASP ASVS 5.0, 3.3.1): one of Django's own name could be
written by a neighbouring site, or by whoever sits between over plain HTTP.
"""

from __future__ import annotations

from django.conf import settings
from django.contrib.messages.storage.cookie import CookieStorage
from django.contrib.messages.storage.fallback import FallbackStorage
from django.contrib.messages.storage.session import SessionStorage


class Guarded(CookieStorage):
    cookie_name = "__Host-messages" if settings.ONLINE else "messages"


class Notices(FallbackStorage):
    storage_classes = (Guarded, SessionStorage)
