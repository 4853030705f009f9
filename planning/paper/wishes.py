"""The photographs a couple ask for, under the block of the day in which each is taken."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from planning.compute.planned import Block, Plan
from planning.compute.values import MustHave
from studio.templatetags.clock import block_title, clock

# What the couple call it, where a block of ours has another name.
BLOCKS = {"getting_ready": "ready", "congratulations": "confetti"}


@dataclass(frozen=True)
class Wishes:
    """`when` is the clock time of each block of its kind, empty where the plan has none."""

    title: str
    when: str
    wishes: tuple[MustHave, ...]


def wishes(plan: Plan) -> list[Wishes]:
    """In the order of the day; what may be taken at any time comes last."""
    blocks = [block for day in plan.days for block in day.blocks]
    kinds = dict.fromkeys([_block_kind(block) for block in blocks])
    said = {_block_kind(must): must.says for must in plan.brief.must_haves}
    order = [*(kind for kind in kinds if kind in said), *(k for k in said if k not in kinds)]
    order.sort(key=lambda kind: not kind)
    return [_of(plan, kind, [b for b in blocks if b.kind == kind], said[kind]) for kind in order]


def _block_kind(each: Block | MustHave) -> str:
    return BLOCKS.get(each.kind, each.kind)


def _of(plan: Plan, kind: str, blocks: list[Block], says: str) -> Wishes:
    mine = tuple(must for must in plan.brief.must_haves if _block_kind(must) == kind)
    if not kind:
        return Wishes(_("At any time"), "", mine)
    titles = dict.fromkeys(block_title(block) for block in blocks)
    times = ", ".join(clock(block.start) for block in blocks)
    return Wishes(", ".join(titles) or says, times, mine)
