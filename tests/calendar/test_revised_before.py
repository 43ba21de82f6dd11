"""The revisions of entries before a run are those that the last one left, or are looked up."""

from __future__ import annotations

from datetime import date

from backbud.calendar.revised_before import LastRun, RevisionsBefore
from backbud.calendar.revisions import Revision, Revisions
from backbud.memo import Memo

OLD, NEW = (Revision(digest, 1, date(2027, 3, 1)) for digest in ("ff", "00"))


class Looked(dict[str, Revision]):
    """Revisions that count how often one is looked up."""

    looked = 0

    def get(self, *key):  # type: ignore[no-untyped-def]
        self.looked += 1
        return super().get(*key)


def run(kept: Memo, remembered: Revisions, left: Revisions, *, asked: bool = True) -> list[str]:
    """A run that makes something of the entry `a`, which has the revisions that are `left`."""
    made: list[str] = []
    last = LastRun.kept_in(kept)
    now = last.begun(remembered)
    if asked:
        before = RevisionsBefore(now, ["a"], remembered)

        def work() -> str:
            made.append(f"from {before.found[0]}")
            before.became([left["a"]])
            return made[-1]

        kept.once("a", (before,), work)
    last.ended(now, left)
    kept.end()
    return made


def test_they_are_not_looked_up_as_long_as_each_run_goes_on_from_the_one_before() -> None:
    kept, first, second = Memo(), Looked(a=OLD), Looked(a=OLD)
    assert run(kept, {}, first) == ["from None"]
    assert run(kept, first, second) == []
    assert run(kept, second, first) == []
    assert first.looked == second.looked == 0


def test_they_are_looked_up_where_somebody_else_left_what_is_remembered() -> None:
    kept, ours = Memo(), {"a": OLD}
    run(kept, {}, ours)
    same = Looked(a=OLD)
    assert run(kept, same, ours) == [] and same.looked == 1
    # From there on it goes on.
    assert run(kept, ours, ours) == []
    assert run(kept, {"a": NEW}, ours) == [f"from {NEW}"]
    assert run(kept, {}, ours) == ["from None"]


def test_a_run_that_did_not_end_leaves_nothing_to_go_on_from() -> None:
    kept, ours = Memo(), {"a": OLD}
    run(kept, {}, ours)
    failed = LastRun.kept_in(kept).begun(ours)
    kept.once("a", (RevisionsBefore(failed, ["a"], ours),), str)
    assert run(kept, {"a": NEW}, ours) == [f"from {NEW}"]


def test_what_the_last_run_did_not_ask_for_is_looked_up() -> None:
    """It is still there, as something that another value was made from."""
    kept, first, second = Memo(), {"a": OLD}, {"a": NEW}
    last = LastRun.kept_in(kept)
    now = last.begun({})
    before = RevisionsBefore(now, ["a"], {})
    before.became([OLD])
    kept.once("whole", (), lambda: kept.once("a", (before,), str))
    last.ended(now, first)
    kept.end()
    now = LastRun.kept_in(kept).begun(first)
    kept.once("whole", (), str)
    LastRun.kept_in(kept).ended(now, second)
    kept.end()
    assert run(kept, second, second) == [f"from {NEW}"]
