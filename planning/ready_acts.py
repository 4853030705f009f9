"""What the buttons of the Ready screen do: one row a tick, and whoever came first is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from intake.models import Wedding

from .compute.ready import ready_list
from .compute.ready_values import Entry, Ready
from .models import ReadyTick
from .ready_brief import load_ready
from .ready_words import title_of, waits_words

MOST_LETTERS = 200  # of a note, as its column holds
VERBS = {"done": ReadyTick.State.DONE, "not": ReadyTick.State.NOT_NEEDED}


@dataclass
class Done:
    """What to say and where to go on; `notes` were typed beside other lines and are not kept."""

    said: str = ""
    refused: str = ""
    anchor: str = ""
    notes: dict[str, str] = field(default_factory=dict)
    errors: dict[str, str] = field(default_factory=dict)


@transaction.atomic
def act(wedding: Wedding, data: Mapping[str, str], user: Any, now: datetime) -> Done:
    """`do` is "done:KEY", "not:KEY", "open:ID:KEY" with the tick that was shown, or "enter"."""
    ready = ready_list(load_ready(wedding.public_id), now)
    typed = {key.removeprefix("note-"): _one_line(data[key]) for key in data if key[:5] == "note-"}
    done = Done(notes={key: text for key, text in typed.items() if text})
    verb, _colon, key = data.get("do", "").partition(":")
    if verb == "enter":  # the return key in a note's box presses no line's button
        return done
    if verb == "open":
        return _open(wedding, key, ready, done)
    entry = ready.entry(key)
    if verb not in VERBS or entry is None:
        done.refused = _("That line is not on the list any more. Look at the list again.")
        return done
    done.anchor = key
    note = typed.get(key, "")
    if len(note) > MOST_LETTERS:
        words = _("Shorten this note to %(most)s characters; it has %(count)s.")
        done.errors[key] = words % {"most": MOST_LETTERS, "count": len(note)}
    elif verb == "done" and entry.waits_for:
        words = _("Not ticked: %(title)s. %(first)s")
        done.refused = words % {"title": title_of(entry.item), "first": waits_words(entry)}
    else:
        _tick(wedding, entry, VERBS[verb], note, user, now, done)
        done.anchor = _next(ready, key)
    return done


def _tick(
    wedding: Wedding,
    entry: Entry,
    state: ReadyTick.State,
    note: str,
    user: Any,
    now: datetime,
    done: Done,
) -> None:
    """A line that somebody else ticked meanwhile stays theirs."""
    values = {"state": state, "by": user, "by_name": _name(user), "at": now, "note": note}
    row, is_new = wedding.ready_ticks.get_or_create(key=entry.key, defaults=values)
    words = {"title": title_of(entry.item), "name": row.by_name, "state": row.get_state_display()}
    done.notes.pop(entry.key, None)
    if is_new:
        done.said = _("%(title)s: %(state)s.") % words
    elif row.state != state or not _add_note(row, note):
        done.refused = (
            _(
                "%(title)s: %(name)s had said “%(state)s” meanwhile, and it stays so. Take it back "
                "first, if you both agree."
            )
            % words
        )
        if note:
            done.refused += " " + _("Your note, to copy: %(note)s") % {"note": note}
    else:
        done.said = _("%(title)s: %(name)s had ticked it already, and it stays so.") % words


def _add_note(row: ReadyTick, note: str) -> bool:
    """Both notes are kept where there is room for them."""
    if note and note != row.note:
        row.note = "; ".join(filter(None, (row.note, note)))
        if len(row.note) > MOST_LETTERS:
            return False
        row.save(update_fields=["note"])
    return True


def _open(wedding: Wedding, rest: str, ready: Ready, done: Done) -> Done:
    """Take back the tick that the page showed, and no other."""
    number, _colon, key = rest.partition(":")
    entry = ready.entry(key)
    done.anchor = key
    tick = wedding.ready_ticks.filter(key=key).first()
    title = title_of(entry.item) if entry else key
    if tick is None:
        done.said = _("%(title)s: it is open already.") % {"title": title}
    elif str(tick.pk) != number:
        words = _("%(title)s: %(name)s has ticked it anew meanwhile, and that stays.")
        done.refused = words % {"title": title, "name": tick.by_name}
    else:
        tick.delete()
        done.said = _("%(title)s: open again.") % {"title": title}
    return done


def _next(ready: Ready, key: str) -> str:
    """The line after it that is still open, so that a thumb need not travel."""
    open_keys = [e.key for e in ready.entries if e.is_open or e.key == key]
    after = open_keys[open_keys.index(key) + 1 :] if key in open_keys else []
    return after[0] if after else key


def _name(user: Any) -> str:
    return user.get_full_name() or user.get_username()


def _one_line(text: str) -> str:
    return " ".join(text.split())
