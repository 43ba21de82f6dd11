"""Plans all trees, and makes what is made of a plan, though it fails for one of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from backbud.journal.faults import failing
from backbud.journal.problems import WithFlaws

if TYPE_CHECKING:
    from backbud.plan.run import Plan

T = TypeVar("T")
# Tells a fault: what failed, the tree's handle, and what was raised.
Meet = Callable[[str, str, Exception], None]


def planned_but_faulty(
    planned: Callable[[Sequence[str]], WithFlaws[Plan]],
    wanted: Sequence[str],
    filled: Callable[[Plan], Plan],
    meet: Meet,
) -> WithFlaws[Plan]:
    """The plan of these trees. Those that planning fails for are told and left to `filled`, which
    puts them in without one."""
    try:
        return planned(wanted)
    except OSError:
        raise
    except Exception:
        faulty = _told("the plan", failing(planned, wanted), meet)
        if not faulty:
            raise
    plan, flaws = planned([handle for handle in wanted if handle not in faulty])
    return WithFlaws(filled(plan), flaws)


def made_of_plan(what: str, plan: Plan, work: Callable[[Plan], T], meet: Meet) -> T:
    """What the work makes of a plan. Trees that it fails for are told, and their follow-ups are
    left out, or else they are."""
    try:
        return work(plan)
    except OSError:
        raise
    except Exception:
        handles = list(plan.trees)
        faulty = _told(what, failing(lambda some: work(plan.only(some)), handles), meet)
        if not faulty:
            raise
    try:
        return work(plan.without_follow_ups(faulty))
    except Exception:
        return work(plan.only(handle for handle in handles if handle not in faulty))


def _told(what: str, faulty: Sequence[tuple[str, Exception]], meet: Meet) -> dict[str, Exception]:
    for handle, error in faulty:
        meet(f"{what} of {handle}", handle, error)
    return dict(faulty)
