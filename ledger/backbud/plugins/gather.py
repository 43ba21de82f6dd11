"""Running the files of a trusted set of plugins, and taking from each what it adds."""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
from functools import partial
from types import ModuleType
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from backbud.consent.files import PluginFiles, text_of
from backbud.consent.place import PLUGINS
from backbud.plugins import budget
from backbud.plugins.added import Flaws, OwnSpecies, Plugins, SectionOf
from backbud.plugins.faults import PluginLine, place_of_error, place_of_function, said
from backbud.plugins.sound import (
    wrong_act,
    wrong_act_name,
    wrong_facts,
    wrong_forms,
    wrong_interface,
    wrong_rule,
)
from backbud.plugins.sources import Sources, interfaces_named, lines_of_names
from backbud.species import Fact, Rule, Species, rules_of
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.forms import ActForm
from backbud_grammar.problems import Flaw

_REST = "It was left out; everything else was used."


def gathered_plugins(journal: str, found: PluginFiles, common_ids: frozenset[str]) -> Plugins:
    """Run each file of `plugins/` and take what it defines; `_name.py` is only for the others.

    `common_ids`: the ids of the rules that hold for every tree already.
    """
    return _Gatherer(journal, found, common_ids).run()


class _Ran(Struct, frozen=True):
    """A file that ran: its module, and the line of each name in it."""

    name: str
    module: ModuleType
    lines: Mapping[str, int]


class _Gatherer:
    def __init__(self, journal: str, found: PluginFiles, common_ids: frozenset[str]) -> None:
        self._journal, self._found = journal, found
        self._taken_ids = set(common_ids)
        self._flaws: list[tuple[str, Flaw]] = list(found.flaws)
        self._acts: list[ActForm] = list(ACTS)
        self._rules: list[Rule] = []
        self._facts: dict[str, dict[str, Fact[object]]] = {}
        self._sections: list[SectionOf] = []
        self._species: list[OwnSpecies] = []

    def run(self) -> Plugins:
        ran = self._ran()
        # Rules may hang on the acts of any file, so all acts come first.
        for one in ran:
            self._take_acts(one)
            self._take_details(one)
        for one in ran:
            self._take_rules(one)
            self._take_facts(one)
            self._take_section(one)
            self._take_species(one)
        return Plugins(
            self._found.digest,
            "",
            self._found.files,
            tuple(self._acts),
            tuple(self._rules),
            self._facts,
            tuple(self._sections),
            tuple(self._species),
            self._sorted_flaws(),
        )

    # -------------------------------------------------------------- run

    def _ran(self) -> list[_Ran]:
        trees: dict[str, ast.Module] = {}
        texts: dict[str, str] = {}
        for name, data in self._found.files.items():
            stem = name.rpartition("/")[2].removesuffix(".py")
            folders = name.split("/")[1:-1]
            if not all(part.isidentifier() for part in (stem, *folders)):
                self._flaw(PluginLine(name, 1), "no Python name: letters, digits and underscores")
                continue
            try:
                texts[name] = text_of(data)
                trees[name] = ast.parse(texts[name], f"{self._journal}/{name}")
            except UnicodeDecodeError as error:
                self._flaw(
                    PluginLine(name, data.count(b"\n", 0, error.start) + 1), "this is not UTF-8"
                )
                texts.pop(name, None)
            except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
                self._failed(PluginLine(name, 1), "", error)
                texts.pop(name, None)
        sources = Sources(self._journal, self._found.digest, texts)
        sources.begin()
        out: list[_Ran] = []
        for name, tree in trees.items():
            # What lies deeper, or begins with an underscore, is there for the others to import.
            if name.count("/") != 1 or name.startswith(f"{PLUGINS}/_"):
                continue
            if self._is_for_another_version(name, tree):
                continue
            module = self._tried(
                PluginLine(name, 1),
                "",
                partial(sources.module_of, name),
                budget.IMPORT_SECONDS,
            )
            if module is not None:
                out.append(_Ran(name, module, lines_of_names(tree)))
        return out

    def _is_for_another_version(self, name: str, tree: ast.Module) -> bool:
        """Whether it says so, before it runs: what it imports may not be there."""
        for interface, line in interfaces_named(tree):
            wrong = wrong_interface(interface)
            if wrong:
                self._flaw(PluginLine(name, line), wrong, "plugin-version")
                return True
        return False

    # -------------------------------------------------------------- take

    def _take_acts(self, one: _Ran) -> None:
        acts = getattr(one.module, "acts", ())
        place = PluginLine(one.name, one.lines.get("acts", 1))
        if not isinstance(acts, tuple):
            self._flaw(place, "“acts” is a tuple of ActForms: acts = (ActForm(…),)")
            return
        known = by_word(tuple(self._acts))
        for act in acts:
            wrong = wrong_act(act)
            taken = [w for w in (act.word, act.bare, *act.also) if w in known] if not wrong else []
            if wrong:
                self._flaw(place, wrong)
            elif taken:
                self._flaw(place, f"there is an act “{taken[0]}” already", "plugin-clash")
            else:
                self._acts.append(act)
                known |= by_word((act,))

    def _take_details(self, one: _Ran) -> None:
        details = getattr(one.module, "details", {})
        place = PluginLine(one.name, one.lines.get("details", 1))
        if not isinstance(details, Mapping):
            self._flaw(place, '“details” are Forms by act: details = {"repotted": (Form(…),)}')
            return
        for word, forms in details.items():
            at = next((n for n, act in enumerate(self._acts) if act.word == word), None)
            if at is None:
                self._flaw(place, wrong_act_name(word, by_word(tuple(self._acts))))
                continue
            act = self._acts[at]
            wrong = wrong_forms(forms) or wrong_forms((*act.forms, *forms))
            taken = {(form.name, form.labels) for form in act.forms}
            clash = [f.name for f in forms if (f.name, f.labels) in taken] if not wrong else []
            if wrong:
                self._flaw(place, wrong)
            elif clash:
                self._flaw(place, f"“{word}” has a detail “{clash[0]}” already", "plugin-clash")
            elif act.prose or act.names_act:
                self._flaw(place, f"“{word}” takes no details of its own")
            else:
                self._acts[at] = replace(act, forms=(*act.forms, *forms))

    def _take_rules(self, one: _Ran) -> None:
        try:
            rules = rules_of(one.module)
        except ValueError as error:
            self._flaw(PluginLine(one.name, 1), str(error), "plugin-clash")
            return
        for rule in rules:
            if getattr(rule.function, "__module__", "") != one.module.__name__:
                continue
            place = place_of_function(rule.function, self._journal) or PluginLine(one.name, 1)
            wrong = wrong_rule(rule, by_word(tuple(self._acts)))
            if wrong:
                self._flaw(place, f"the rule “{rule.id}”: {wrong}")
            elif rule.id in self._taken_ids:
                self._flaw(place, f"there is a rule “{rule.id}” already", "plugin-clash")
            else:
                self._rules.append(rule)
                self._taken_ids.add(rule.id)

    def _take_facts(self, one: _Ran) -> None:
        facts = getattr(one.module, "facts", {})
        place = PluginLine(one.name, one.lines.get("facts", 1))
        wrong = wrong_facts(facts)
        if wrong:
            self._flaw(place, wrong)
            return
        for kind, some in facts.items():
            known = self._facts.setdefault(" ".join(kind.casefold().split()), {})
            for label, fact in some.items():
                if label in known:
                    self._flaw(place, f"{kind} has a fact “{label}” already", "plugin-clash")
                else:
                    known[label] = fact

    def _take_section(self, one: _Ran) -> None:
        section = getattr(one.module, "section", None)
        if section is None:
            return
        if callable(section):
            self._sections.append(section)
        else:
            place = PluginLine(one.name, one.lines.get("section", 1))
            self._flaw(place, "“section” is a function: def section(tree, year)")

    def _take_species(self, one: _Ran) -> None:
        for name, value in list(vars(one.module).items()):
            if (
                not isinstance(value, type)
                or not issubclass(value, Species)
                or value.__module__ != one.module.__name__
                or name.startswith("_")
                or name != value.__name__
            ):
                continue
            place = PluginLine(one.name, one.lines.get(name, 1))
            species = self._tried(
                place,
                f"the species {name} cannot be used: ",
                partial(self._made, value),
                budget.RULE_SECONDS,
            )
            if species is not None and self._has_sound_rules(species, place):
                self._species.append(OwnSpecies(species, place.file, place.line))

    def _made(self, species: type[Species]) -> Species:
        made = species()
        rules_of(made)
        return made

    def _has_sound_rules(self, species: Species, place: PluginLine) -> bool:
        acts = by_word(tuple(self._acts))
        for rule in rules_of(species):
            wrong = wrong_rule(rule, acts)
            if not wrong and rule.id in self._taken_ids:
                wrong = "there is a rule of this id for every tree already"
            if wrong:
                where = place_of_function(rule.function, self._journal) or place
                self._flaw(where, f"the rule “{rule.id}” of {type(species).__name__}: {wrong}")
                return False
        return True

    # -------------------------------------------------------------- faults

    def _tried(self, place: PluginLine, what: str, work: Callable[[], Any], seconds: float) -> Any:
        """What the work returns, or None and a flaw where it raises or takes too long."""
        try:
            return budget.within(seconds, work)
        except KeyboardInterrupt:
            raise
        except BaseException as error:
            self._failed(place, what, error)
            return None

    def _failed(self, place: PluginLine, what: str, error: BaseException) -> None:
        self._flaw(place_of_error(error, self._journal) or place, f"{what}{said(error)}")

    def _flaw(self, place: PluginLine, message: str, code: str = "plugin-failed") -> None:
        self._flaws.append(place.flaw(code, message, _REST))

    def _sorted_flaws(self) -> Flaws:
        return tuple(sorted(self._flaws, key=lambda flaw: (flaw[0], flaw[1].line)))
