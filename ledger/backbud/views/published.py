"""What programs read: the JSON of each command, made from a view, and the schema of it.

python -m backbud.views.published             prints the schema
python -m backbud.views.published FILE        writes it
"""

from __future__ import annotations

from pathlib import Path

# What is published of the shape of each command's JSON: JSON Schema, draft 2020-12.
SCHEMA = Path(__file__).parent / "schema.json"
# Structs are called by the names that programs know.
_NAMES = {
    "WorkView": "work",
    "Reason": "reason",
    "DaysView": "days",
    "SettledView": "settled_by",
    "TreeView": "tree",
    "DateView": "written_date",
    "EntryView": "entry",
    "CorrectionView": "correction",
    "LateView": "written_late",
    "PhotographView": "photograph",
    "WireView": "wire_on_tree",
    "FactView": "fact_of_tree",
    "ThingView": "thing_on_tree",
    "BatchView": "batch",
    "ShelfView": "shelf",
    "OnHandView": "material_on_hand",
    "BuyView": "material_to_buy",
    "WantView": "want",
    "MissingView": "not_reckoned",
    "ProblemView": "problem",
    "MadeView": "made",
    "KindView": "species",
    "KindName": "species_name",
    "SpeciesFact": "fact_of_species",
    "StageView": "stage",
    "YearlyView": "yearly_work",
    "AfterView": "work_afterwards",
    "VisitView": "visit",
    "AccountView": "account",
    "ChargeView": "charge",
    "BookedView": "bill_or_payment",
    "MoneyView": "sums",
    "HoldView": "hold",
    "ListedTree": "listed_tree",
    "ListedPlace": "listed_place",
    "ListedPot": "listed_pot",
    "RegisterView": "register",
    "ColumnView": "column_of_register",
    "WireOnView": "wire_of_visit",
    "BillView": "bill_as_it_stands",
    "PapersView": "papers",
    "PartyView": "party",
    "PaperTreeView": "tree_of_paper",
    "ReceiptView": "receipt",
    "StatementView": "statement",
    "StatedTreeView": "visit_in_statement",
    "StatedSumsView": "sums_of_statement",
    "TaxSumView": "sums_under_tax",
    "CareView": "care_sheet",
    "CareItem": "advice",
    "ProvenanceView": "provenance",
    "YearDone": "done_in_year",
    "DoneLine": "done",
    "PairView": "then_and_now",
    "JottingView": "jotting",
    "JottedView": "jotted_line",
    "AskView": "asked_back",
    "DatasetView": "dataset",
    "SinceView": "since",
    "ActView": "act",
    "MovedView": "moved_work",
    "WentView": "work_no_more_open",
    "DetailView": "detail",
    "PersonView": "person",
    "OwnedView": "tree_of_person",
    "PublishedView": "published",
    "SentView": "calendar_sent",
    "CollectedView": "collected",
    "OfferView": "line_offered",
    "FetchedView": "fetched",
    "FetchedForecast": "forecast_fetched",
    "FetchedPast": "past_fetched",
    "NightView": "night",
    "BroughtView": "brought",
    "BroughtSheetView": "sheet_of_list",
    "BroughtCardView": "card_from_list",
    "BroughtCellView": "cell_of_list",
}
# A sum of the bench is flat, each figure under its own name with its unit.
_SUM = {
    "title": "sum",
    "description": "A sum of the bench: each figure by its name, which ends in its unit.",
    "type": "object",
    "properties": {
        "rules": {
            "description": "What each figure goes by, with its source.",
            "type": "array",
            "items": {"type": "string"},
        },
        "cautions": {"type": "array", "items": {"type": "string"}},
        "ingredients": {"type": "array", "items": {"type": "object"}},
    },
    "required": ["rules", "cautions"],
    "additionalProperties": {
        "anyOf": [
            {"type": ["number", "string", "boolean", "null"]},
            {"type": "array", "items": {"type": ["number", "string"]}},
        ]
    },
}


def as_json(view: object) -> str:
    """A view as JSON: days as ISO 8601, money as text, so that it stays exact, figures to six
    significant digits."""
    from json import dumps

    from msgspec import to_builtins

    plain = to_builtins(view, str_keys=True, enc_hook=_plain)
    return dumps(_told(plain), ensure_ascii=False, indent=2)


def _plain(value: object) -> str:
    """A sentence that carries more than its text, as a datum does."""
    if isinstance(value, str):
        return str.__str__(value)
    raise TypeError(f"no JSON for {type(value).__name__}")


def _told(value: object) -> object:
    """What programs read of a plain value: figures rounded, the reasons of a work as lines too."""
    if isinstance(value, dict):
        told = {key: _told(one) for key, one in value.items()}
        return told | {_LINES: list(map(_line, value["reasons"]))} if _is_work(value) else told
    if isinstance(value, list | tuple):
        return [_told(one) for one in value]
    return float(f"{value:z.6g}") if isinstance(value, float) else value


# The reasons of a work once more, a sentence each: for programs that want no more of them.
_LINES = "because"


def _is_work(value: dict[str, object]) -> bool:
    return "reasons" in value and "settled_by" in value


def _line(reason: dict[str, object]) -> str:
    # As `Reason.told` has it; no plan is loaded to print.
    at = f" ({reason['file']}:{reason['line']})" if reason["file"] else ""
    return f"{reason['text']}{at}"


def schema() -> str:
    """The schema of what each command prints with `--json`: `#/$defs/COMMAND`, `-` for a space."""
    from json import dumps

    from msgspec.json import schema_components

    from backbud.views.brought import BroughtView
    from backbud.views.came import FetchedView, NightView
    from backbud.views.dataset import DatasetView
    from backbud.views.jotted import JottingView
    from backbud.views.kind import KindName, KindView
    from backbud.views.listed import ListedPlace, ListedPot, ListedTree
    from backbud.views.on_server import CollectedView, PublishedView
    from backbud.views.paper import PapersView
    from backbud.views.problem import MadeView, ProblemView
    from backbud.views.registers.register import RegisterView
    from backbud.views.shelf import ShelfView
    from backbud.views.since import SinceView
    from backbud.views.tree import TreeView
    from backbud.views.visit import AccountView, VisitView
    from backbud.views.work import WorkView

    commands: dict[str, object] = {
        "backbud-jot": JottingView,
        "backbud-check": tuple[ProblemView, ...],
        "backbud-make": MadeView,
        "backbud-due": tuple[WorkView, ...],
        "backbud-why": tuple[WorkView, ...],
        "backbud-tree": TreeView,
        "backbud-trees": tuple[ListedTree, ...],
        "backbud-places": tuple[ListedPlace, ...],
        "backbud-pots": tuple[ListedPot, ...],
        "backbud-stores": ShelfView,
        "backbud-visits": tuple[VisitView, ...],
        "backbud-account": AccountView,
        "backbud-registers": tuple[RegisterView, ...],
        "backbud-papers": PapersView,
        "backbud-data": DatasetView,
        "backbud-since": SinceView,
        "backbud-publish": PublishedView,
        "backbud-collect": CollectedView,
        "backbud-weather": FetchedView,
        "backbud-nightly": NightView,
        "backbud-bring": BroughtView,
        "backbud-species": tuple[KindName, ...],
        "backbud-species-NAME": KindView,
    }
    found, parts = schema_components(list(commands.values()), ref_template="#/$defs/{name}")
    lines = parts["WorkView"]
    lines["properties"][_LINES] = {"type": "array", "items": {"type": "string"}}
    lines["required"].append(_LINES)
    defs = {**parts, **dict(zip(commands, found, strict=True)), "backbud-reckon": _SUM}
    whole = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "backbud",
        "description": "What each command prints with --json, as #/$defs/backbud-COMMAND.",
        "$defs": dict(
            sorted((_NAMES.get(name, name), _renamed(one)) for name, one in defs.items())
        ),
    }
    return dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _renamed(part: object) -> object:
    """A part of the schema with structs called as programs know them."""
    if isinstance(part, dict):
        part = {key: _renamed(one) for key, one in part.items()}
        for key, head in (("$ref", "#/$defs/"), ("title", "")):
            name = str(part.get(key, "")).removeprefix(head)
            if name in _NAMES:
                part[key] = f"{head}{_NAMES[name]}"
        told = part.get("description")
        return part | {"description": " ".join(told.split())} if isinstance(told, str) else part
    return [_renamed(one) for one in part] if isinstance(part, list) else part


if __name__ == "__main__":
    import sys

    if sys.argv[1:]:
        Path(sys.argv[1]).write_text(schema(), encoding="utf-8")
    else:
        from backbud.say import say

        say(*schema().splitlines())
