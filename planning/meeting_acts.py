"""What the buttons of the Meeting do. Whatever is pressed, all that was typed is kept first."""

from __future__ import annotations

from dataclasses import dataclass, field

from django.db import transaction
from django.utils.translation import gettext as _

from intake.models import Wedding
from intake.steps import BY_SLUG

from .agreements import NotDoneError, share
from .meeting_sheet import Sheet


@dataclass
class Done:
    """What to say, and where on the page to go on; `errors` where nothing was kept."""

    sheet: Sheet
    said: list[str] = field(default_factory=list)
    refused: str = ""
    anchor: str = ""
    errors: list[tuple[str, str]] = field(default_factory=list)


def act(wedding: Wedding, data: dict) -> Done:
    """Keep what was typed, then do what the pressed button says."""
    verb, _colon, rest = data.get("do", "").partition(":")
    done = _keep(wedding, data, rest if verb == "drop" else "")
    if done.errors:
        return done
    if verb == "share":
        done.anchor = "summary"
        try:
            version = share(wedding, data.get("seen", ""))
        except NotDoneError as error:
            done.refused = str(error)
        else:
            words = _("Shared: version %(number)s. They see it at the top of their link.")
            done.said.append(words % {"number": version.number})
    elif verb == "step" and rest in BY_SLUG:
        done.anchor = f"step-{rest}"
        done.said.insert(0, _("Kept: %(step)s.") % {"step": BY_SLUG[rest].title})
    elif verb == "drop":
        done.anchor = "open"
        done.said.insert(0, _("The point is gone."))
    else:
        done.anchor = "open"
        done.said.insert(0, _("Kept."))
    return done


@transaction.atomic
def _keep(wedding: Wedding, data: dict, dropped: str) -> Done:
    """Another device that keeps something of the same wedding waits here."""
    wedding = Wedding.objects.select_for_update().get(pk=wedding.pk)
    sheet = Sheet(wedding, data)
    done = Done(sheet, errors=sheet.errors())
    point = next((f for f in sheet.points if f.instance.key == dropped and f.is_stored()), None)
    if point is not None and not done.errors and point.changed_elsewhere:
        text = _("It was changed after you opened the page. Read it, then remove it.")
        point.add_error("note", text)
        done.errors = sheet.errors()
    if done.errors:
        return done
    sheet.save()
    if point is not None and "text" in point.fields:  # what the couple said stays
        wedding.meeting_points.filter(key=dropped).delete()
    if taken := sheet.taken():
        text = _("Kept as it was changed on another phone or computer meanwhile: %(what)s.")
        done.said.append(text % {"what": ", ".join(taken)})
    if back := sheet.brought_back():
        text = _("Removed elsewhere meanwhile, and kept because you changed it: %(what)s.")
        done.said.append(text % {"what": ", ".join(back)})
    return done
