"""Fixtures with a database. Pure tests ask for none of them."""

import os
import tempfile
import time as clock
from datetime import date, time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# How long an example takes says more of what else this machine does than of us.
settings.register_profile(
    "any machine", settings.default, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("any machine")

# Before Django reads its settings: tests leave the studio's own data folder alone.
os.environ["FOREDAY_DATA"] = tempfile.mkdtemp(prefix="foreday-test-")
for name in ("FOREDAY_PICTURES", "FOREDAY_HOME_HOSTS"):
    os.environ.pop(name, None)
os.environ.setdefault("DJANGO_SECRET_KEY", "for the tests alone, and long enough for every check")


@pytest.fixture(autouse=True)
def nobody_has_guessed():
    """Wrong links of the test before are forgotten."""
    from django.core.cache import cache

    cache.clear()


@pytest.fixture
def wedding(db):
    """Þóra and Łukasz, booked for one day, questionnaire empty."""
    from intake.models import Day, Partner, Wedding
    from planning.models import Decisions, Hours

    wedding = Wedding.objects.create(public_id="thora-lukasz", zone="Europe/London")
    Partner.objects.create(wedding=wedding, name="Þóra Sigurðardóttir", position=0)
    Partner.objects.create(wedding=wedding, name="Łukasz Wiśniewski", position=1)
    day = Day.objects.create(wedding=wedding, date=date(2027, 6, 12))
    Hours.objects.create(day=day, starts=time(9), ends=time(22, 30))
    Decisions.objects.create(wedding=wedding)
    return wedding


@pytest.fixture
def timed(wedding):
    """The same wedding at one place, with three fixed times."""
    from intake.models import Moment, Place
    from planning.models import Drive

    day = wedding.days.get()
    barn = Place.objects.create(wedding=wedding, key="barn", name="Orchard Barn")
    Drive.objects.create(wedding=wedding, origin=None, destination=barn, map_minutes=30)
    for key, kind, at in [
        ("vows", "ceremony", time(14)),
        ("dinner", "meal", time(17)),
        ("reel", "dance", time(20, 30)),
    ]:
        Moment.objects.create(wedding=wedding, day=day, key=key, kind=kind, at=at)
    return wedding


@pytest.fixture
def photographer(db, client, django_user_model):
    """A client signed in as the photographer who owns the studio."""
    client.force_login(owner(django_user_model))
    noted = client.session  # as after their first page: studio/sessions.py writes once an hour
    noted["since"] = noted["seen"] = clock.time()
    noted.save()
    return client


def owner(model, name="marigold"):
    """An account that may do everything, made as `createsuperuser` makes it."""
    return model.objects.create_superuser(name, password=None)


def member(model, role, name):
    """An account of one role: OWNER, PHOTOGRAPHER or SECOND."""
    from studio.member_models import Member, Role

    user = model.objects.create_user(name)
    Member.objects.create(user=user, role=Role[role])
    return user


@pytest.fixture
def couple(wedding):
    """A client that has opened the couple's own link."""
    from django.test import Client

    from intake.links import link_path

    client = Client()
    client.get(link_path(wedding))
    return client


@pytest.fixture
def kept_files(tmp_path, settings):
    """A store of one's own; called, it names every file in it."""
    folder = tmp_path / "pictures"
    own = settings.STORAGES["pictures"]
    own = own | {"OPTIONS": own["OPTIONS"] | {"location": folder}}
    settings.STORAGES = settings.STORAGES | {"pictures": own}
    return lambda: [p.relative_to(folder).as_posix() for p in folder.rglob("*.*")]


@pytest.fixture(scope="session")
def evidence() -> Path:
    """Published check values, each with its source beside it."""
    return Path(__file__).parent / "evidence"


@pytest.fixture
def other(db):
    """Somebody else's wedding, with a day, a place, a group and a link of its own."""
    from intake.models import Day, Group, Partner, Place, Wedding

    other = Wedding.objects.create(public_id="wanjiru-odon", zone="Pacific/Auckland")
    Partner.objects.create(wedding=other, key="w1", name="Wanjirũ Kamau", position=0)
    Partner.objects.create(wedding=other, key="w2", name="Ödön Szőke", position=1)
    Day.objects.create(wedding=other, key="theirday", date=date(2027, 8, 7))
    Place.objects.create(wedding=other, key="theirplace", name="Heron House")
    Group.objects.create(wedding=other, key="theirgroup", title="Heron family", people="Ödön")
    return other
