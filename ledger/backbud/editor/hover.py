"""Says what stands at a place: a tree and what is due on it, an act and what follows from it, a
measure in other units, an own word."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from lsprotocol import types as lsp

from backbud.collection.fold import tree_on
from backbud.collection.state import Tree
from backbud.editor.desk import Desk, Standing
from backbud.editor.led_to import PLAN_S, acts_on, day_of_page, follows
from backbud.editor.mentions import thing_of
from backbud.editor.text import OpenText
from backbud.editor.tokens import Token, token_at
from backbud.journal.things import Thing
from backbud.plan.one_by_one import PlannedTree
from backbud.tongue import full_day
from backbud.words import between, number, weekday
from backbud_grammar.dates import read_date
from backbud_grammar.forms import ActForm
from backbud_grammar.hints import expected_of
from backbud_grammar.measures import BY_WRITING, UNITS, Measure, convert
from backbud_grammar.problems import Misread

MOST_DUE, MOST_NAMED = 6, 12
# Units of one size that nobody needs twice.
_LEFT_OUT = frozenset(("month", "year", "ha"))
FACTORS = "factors: NIST SP 811"


async def hover(desk: Desk, text: OpenText, position: lsp.Position) -> lsp.Hover | None:
    """What is said of the word at a place; None where nothing is."""
    line, column = text.place(position)
    piece = desk.pieces(text).at(line)
    token = token_at(piece, text, desk.speech, line, column)
    if token is None:
        return None
    on = day_of_page(piece, desk.speech.southern) or desk.today
    lines = await _said(desk, text, token, on)
    if not lines:
        return None
    where = text.range(token.line, token.column, len(token.text))
    return lsp.Hover(lsp.MarkupContent(lsp.MarkupKind.Markdown, "\n".join(lines)), where)


async def _said(desk: Desk, text: OpenText, token: Token, on: date) -> list[str]:
    if token.sort == "handle":
        thing = thing_of(desk, token.value)
        if thing is None:
            return []
        if thing.kind == "tree":
            return await _of_tree(desk, thing.handle, on)
        return [*_of_thing(desk, thing, on)]
    if token.sort == "act":
        form = desk.speech.form(token.value)
        means = [*_of_act(form)] if form is not None else []
        return [*means, *await _of_line(desk, text, token.line)]
    if token.sort == "own":
        form = desk.speech.form(token.about.split(None, 1)[0]) if token.about else None
        means = ["", *_of_act(form)] if form is not None else []
        stands = f"**{token.value}** stands for `{token.about}`"
        return [stands, *means, *await _of_line(desk, text, token.line)]
    if token.sort == "measure" and token.measure is not None:
        return [*other_units(token.measure)]
    return [*_of_date(token.value, desk)] if token.sort == "date" else []


# ------------------------------------------------------------------ a tree


async def _of_tree(desk: Desk, handle: str, on: date) -> list[str]:
    """Where it is, what is on it, and what is due, all as of a day."""
    standing = desk.standing
    if standing is None:
        return [f"**{handle}**", "", "The journal is being read."]
    asked = asyncio.wrap_future(desk.planned(handle, on))
    done, _ = await asyncio.wait((asked,), timeout=PLAN_S)
    planned: PlannedTree | None = None
    if done and not asked.cancelled() and asked.exception() is None:
        planned = asked.result()
    things = standing.snapshot.journal.things
    tree = planned.tree if planned is not None else tree_on(standing.histories, things, handle, on)
    return [*_tree(tree, standing, on), *_due(planned, on)]


def _tree(tree: Tree, standing: Standing, on: date) -> Iterator[str]:
    kind = f"{tree.kind} '{tree.cultivar}'" if tree.cultivar else tree.kind
    called = f"{tree.handle}, {tree.title}" if tree.title != tree.handle else tree.handle
    counted = f", {tree.counted}" if tree.counted else ""
    yield f"**{called}** – {kind}{counted}"
    yield ""
    names = standing.session.names()
    where = [f"in {names.get(tree.place, tree.place)}"] if tree.place else []
    where += [f"in pot {names.get(tree.pot, tree.pot)}"] if tree.pot else []
    where += [f"of {names.get(tree.owner, tree.owner)}"] if tree.owner else []
    stands = "here" if tree.here else tree.standing
    yield f"{full_day(on)}: {', '.join((stands, *where))}"
    yield ""
    for thing in tree.on_tree:
        part = f" on {thing.part}" if thing.part else ""
        yield f"- on it: {thing.sort} {thing.what}{part}, since {full_day(thing.since)}"
    if not tree.on_tree:
        yield "- nothing is on it"


def _due(planned: PlannedTree | None, on: date) -> Iterator[str]:
    if planned is None:
        yield "- what is due is still being reckoned"
        return
    states = ("overdue", "now", "coming", "promised")
    found = [one for one in planned.follow_ups if one.state(on) in states]
    found.sort(key=lambda one: (one.state(on) == "coming", one.weight.rank, one.window.closes))
    for one in found[:MOST_DUE]:
        window = one.window_on(on)
        late = "was due" if one.state(on) == "overdue" else "due"
        yield f"- {late}: {one.title}, {between(window.opens, window.closes, on.year)}"
    if len(found) > MOST_DUE:
        yield f"- and {number(len(found) - MOST_DUE, 'more work', 'more works')}"
    if not found:
        yield "- nothing is due"


# ------------------------------------------------------------------ other things


def _of_thing(desk: Desk, thing: Thing, on: date) -> Iterator[str]:
    called = f"{thing.handle}, {thing.title}" if thing.title != thing.handle else thing.handle
    yield f"**{called}** – {thing.kind}"
    yield ""
    for line in thing.lines:
        yield f"- {line.written.text}"
    standing = desk.standing
    if standing is None or thing.kind not in ("place", "pot", "person"):
        return
    from backbud.collection.standing_on import standing_on

    things = standing.snapshot.journal.things
    found: list[str] = []
    for handle, at in standing.histories.trees.items():
        stand = standing_on(at, things, on)
        asked = {"place": stand.place, "pot": stand.pot, "person": stand.owner}[thing.kind]
        if stand.standing == "here" and asked == thing.handle:
            found.append(handle)
    more = f" and {len(found) - MOST_NAMED} more" if len(found) > MOST_NAMED else ""
    yield f"- {full_day(on)}: {', '.join(found[:MOST_NAMED]) or 'no tree'}{more}"


def _of_act(form: ActForm) -> Iterator[str]:
    """What an act means, and what it takes."""
    yield f"**{form.word}** ({form.bare}) – {form.group}, done to a {' or a '.join(form.on)}"
    yield ""
    if form.about:
        yield f"{form.about}"
        yield ""
    if form.prose:
        yield "All that stands behind it is free words."
    elif not form.names_act:
        yield expected_of(form.forms)
    else:
        yield "It names an act, with its details."
    yield from (f"\n⚠ {caution}" for caution in form.cautions)


async def _of_line(desk: Desk, text: OpenText, line: int) -> list[str]:
    """What follows from the line, with dates."""
    one = next(acts_on(desk, text, line, line), None)
    if one is None:
        return []
    found = await follows(desk, one)
    if not found:
        return []
    lines = ["", "From this line:"]
    for led in found[:MOST_NAMED]:
        lines.append(f"- {led.follow_up.tree}: {led.follow_up.title}, {led.when}")
    return lines


def _of_date(written: str, desk: Desk) -> Iterator[str]:
    try:
        when = read_date(written, desk.speech.southern)
    except Misread:
        return
    if when.exact:
        yield f"{weekday(when.first)}, {full_day(when.first)}"
    else:
        first, last = full_day(when.first), full_day(when.last)
        yield f"{first} to {last}; a rough date gives history and starts no follow-up"


# ------------------------------------------------------------------ measures


def other_units(measure: Measure) -> Iterator[str]:
    """A measure in the other units of what it measures."""
    unit = BY_WRITING.get(measure.unit)
    if unit is None or measure.per:
        return
    found = [
        said
        for other in UNITS
        if other.dimension == unit.dimension and other is not unit
        if other.symbol not in _LEFT_OUT
        if (said := _in(measure, other.symbol))
    ]
    if found:
        yield f"**{measure}**"
        yield ""
        yield f"{' = '.join(found)}  ({FACTORS})"


def _in(measure: Measure, unit: str) -> str:
    """The same in another unit, to three figures; "" where nobody would say it so."""
    numbers = (*measure.numbers, *(() if measure.upper is None else (measure.upper,)))
    turned = [convert(number, measure.unit, unit) for number in numbers]
    if any(one and not Decimal("0.01") <= abs(one) < 10_000 for one in turned):
        return ""
    joiner = "–" if measure.upper is not None else " x "
    return f"{joiner.join(map(_three_figures, turned))} {unit}"


def _three_figures(value: Decimal) -> str:
    return f"{float(f'{float(value):.3g}'):g}"
