"""The pictures of the demo's first wedding, hung once."""

from __future__ import annotations

from collections.abc import Callable

from django.utils import timezone
from PIL import Image

from intake.models import KeptPicture, Picture, Wedding, new_nonce
from intake.reencode import reencode
from intake.store import digest_of, put
from planning.models import StudioPicture

from . import drawings, orchard_barn

LIKED = (
    (drawings.orchard, "Us between the old pear trees, small, with the sun behind"),
    (drawings.long_table, "Everybody along one table once the lanterns are lit"),
    (drawings.hands, "Þóra’s hand in Łukasz’s, with the ring of his grandmother"),
    (drawings.confetti, "The barn door, and dried petals in the air"),
    (drawings.veil, ""),
)
OWN = ((drawings.barn_door, "Window light from the big door at five: portraits if it rains"),)


def hang_pictures() -> None:
    """Where the step was never kept; whoever removes a picture in the demo has removed it."""
    wedding = Wedding.objects.get(public_id=orchard_barn.ID)
    if wedding.steps.filter(slug="pictures").exists():
        return
    for draw, line in LIKED:
        _hang(Picture, wedding, draw, line)
    for draw, line in OWN:
        _hang(StudioPicture, wedding, draw, line)
    wedding.steps.create(slug="pictures", saved_at=wedding.sent_at or timezone.now())


def _hang(
    model: type[KeptPicture], wedding: Wedding, draw: Callable[[], Image.Image], line: str
) -> None:
    content = drawings.as_jpeg(draw)
    digest = digest_of(content)
    if model.objects.filter(wedding=wedding, digest=digest).exists():
        return
    kept = put(reencode(content), wedding.public_id, digest)  # our own: no need of a process apart
    model.objects.create(wedding=wedding, key=new_nonce(), line=line, **kept.as_row())
