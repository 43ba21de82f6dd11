"""Lines that say a thing and take it back, ask, or tell of what is to come: none is done."""

from __future__ import annotations

import pytest
from tests.conftest import Written

CARDS = """\
    person ada
    place yard
      latitude 52 N
    place glass
    tree hoshi
      kind trident maple
      owner ada
      place yard

    2026-03-01
    hoshi
      wired    2 mm Al on L1, 2 mm Al on right 2
      billed   90 EUR

    2026-04-01
    hoshi
      """


@pytest.mark.parametrize(
    "line",
    [
        "died of frost?",
        "died of neglect? no",
        "died -- or so bert says, it's fine",
        "lost -- no, karl had it",
        "lost -- found again same evening",
        "sold -- joke",
        "moved glass -- no, stayed out",
        "moved glass -- nope",
        "returned to ada -- she'll come on sunday",
        "paid 90 EUR -- promised",
        "paid 90 EUR -- bounced",
        "billed 20 EUR -- to be sent next week",
        "billed 20 EUR, less 5 discount",
        "unwired on left 1 tomorrow",
        "unwired on right 2 soon",
        "unwired -- apex stays",
        "unwired -- bar the apex",
        "unwired -- most of it",
        "unwired -- one branch",
        "unwired -- two of three",
        "unwired -- lower branches",
        "unwired -- everything below the apex",
        "unwired -- interrupted by rain",
        "unwired -- left the apex on",
        "unwired Monday",
        "sold to ada, 300 EUR -- if she agrees",
        "sold to ada, 300 EUR -- fell through",
        "sold to ada, 300 EUR -- he changed his mind",
        "returned -- refused",
        "returned -- and brought back the same evening",
        "died -- I think",
        "died -- still green inside",
        "died -- or asleep, wait till June",
        "died -- the weak ones",
        "died of cold in the fingers waiting",
        "lost to ada in the club competition",
        "lost to view behind pine",
        "lost to storm the front guy",
        "paid 90 EUR -- cheque bounced",
        "billed 90 EUR -- reminder",
        "moved glass -- and straight back, wind",
        "moved glass -- by mistake",
    ],
)
def test_it_is_held_back(written: Written, line: str) -> None:
    session = written(f"{CARDS}{line}\n", on="2026-04-02", any_problems=True)
    history = session.plan().trees["hoshi"]
    assert (history.standing, history.place, len(history.on_tree)) == ("here", "yard", 2)
    assert history.history[-1].event.held, line
    assert any("changes nothing" in one.message for one in session.problems())


@pytest.mark.parametrize(
    "line",
    ["died over winter", "died in winter", "died in summer", "died in transit", "died of frost",
     "died of cold, over winter", "lost, stolen", "lost to canker"],
)  # fmt: skip
def test_what_the_manual_lists_behind_an_end_ends_a_tree(written: Written, line: str) -> None:
    """`in winter` says when, and is no `in` of a turn of speech; no work is left of the tree."""
    session = written(f"{CARDS}{line}\n", on="2026-04-02")
    plan = session.plan()
    assert plan.trees["hoshi"].standing == line.split(",")[0].split()[0]
    assert not [one for one in plan.all() if one.is_open(session.today) and not one.given_word]


@pytest.mark.parametrize(
    "line", ["died over winter?", "died in winter, of 3", "died of 3", "died in autumn"]
)
def test_a_time_does_not_make_an_end_of_what_is_asked_or_not_read(
    written: Written, line: str
) -> None:
    session = written(f"{CARDS}{line}\n", on="2026-04-02", any_problems=True)
    assert session.plan().trees["hoshi"].standing == "here"


@pytest.mark.parametrize(
    "line",
    [
        "died -- no buds moved all spring",
        "unwired on left 1 -- it stays where it was put",
        "moved glass -- nobody helped",
        "checked wire fine -- no marks",
        "watered -- no rain for a week",
        "paid 90 EUR in cash -- no change given",
    ],
)
def test_a_remark_that_only_tells_more_holds_nothing_back(written: Written, line: str) -> None:
    session = written(f"{CARDS}{line}\n", on="2026-04-02", any_problems=True)
    assert not session.plan().trees["hoshi"].history[-1].event.held, line


@pytest.mark.parametrize(
    "line",
    ["I paid 20 EUR", "we paid 20 EUR", "postman sent 10 EUR", "sent 80 EUR", "put out in glass",
     "returned Friday", "sold Friday"],
)  # fmt: skip
def test_what_somebody_else_did_changes_nothing(written: Written, line: str) -> None:
    session = written(f"{CARDS}{line}\n", on="2026-04-02", any_problems=True)
    tree = session.plan().trees["hoshi"]
    assert (tree.standing, tree.planted_out, len(tree.on_tree)) == ("here", False, 2)
    (account,) = session.accounts()
    assert account.payments == ()


@pytest.mark.parametrize("said", ["unwired on left 1", "unwired on L1", "wire off L1"])
def test_a_side_and_a_number_is_one_part_however_it_is_written(written: Written, said: str) -> None:
    session = written(f"{CARDS}{said}\n", on="2026-04-02")
    assert [one.part for one in session.plan().trees["hoshi"].on_tree] == ["right 2"]
