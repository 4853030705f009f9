"""Sharing and confirming, as the pages do it."""

from planning.agreements import agreed_now, confirm, share, written
from planning.brief import load_brief
from planning.compute.day import plan_wedding


def plan_of(wedding):
    return plan_wedding(load_brief(wedding))


def shared(wedding):
    return share(wedding, written(wedding, plan_of(wedding))["digest"])


def agreed(wedding, name="Þóra Sigurðardóttir"):
    return confirm(wedding, str(shared(wedding).number), name)


def said_now(wedding):
    return agreed_now(wedding, plan_of(wedding))
