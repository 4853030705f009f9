from django.apps import AppConfig


class StudioConfig(AppConfig):
    name = "studio"

    def ready(self) -> None:
        from . import checks  # noqa: F401 - its checks are known from now on
