"""The demo's drawings: hung once, and not again where somebody took them down."""

import pytest
from django.core.files.storage import storages

from intake.models import Picture, Wedding
from planning.demo import orchard_barn
from planning.demo.load import load_season
from planning.demo.pictures import LIKED, OWN, hang_pictures
from planning.models import StudioPicture

from .test_load import TODAY

pytestmark = pytest.mark.django_db


def test_every_drawing_hangs_once_and_is_another(kept_files):
    load_season(TODAY)
    hang_pictures()
    hang_pictures()
    wedding = Wedding.objects.get(public_id=orchard_barn.ID)
    assert [each.line for each in wedding.pictures.all()] == [line for _draw, line in LIKED]
    assert [each.line for each in wedding.studiopictures.all()] == [line for _draw, line in OWN]
    assert len({each.digest for each in wedding.pictures.all()}) == len(LIKED)
    assert all(storages["pictures"].exists(each.small) for each in wedding.pictures.all())
    assert Picture.objects.count() + StudioPicture.objects.count() == len(LIKED) + len(OWN)


def test_what_was_taken_down_stays_down(kept_files):
    load_season(TODAY)
    hang_pictures()
    Picture.objects.all().delete()
    hang_pictures()
    assert not Picture.objects.exists()
