"""A theme's templates read without being run: what is misspelt in them, and what they ask for that is not there.

A template is a program. Here it is taken apart into its words and nothing of it is worked out, not even `9 ** 9 ** 9`,
which a compiler would do ahead of time. So a word after a dot is known only where it follows `view`, `page` or `site`,
and what goes wrong with a value is known once its page is made.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import TypeAlias

from jinja2 import Environment, TemplateSyntaxError, nodes

from gristbook.problems import Place, Problems, nearest
from gristbook.reading.files import read_text, themes
from gristbook.reading.tree import is_text
from gristbook.site.pages import Page, Site
from gristbook.site.render import FORMER, environment
from gristbook.site.themes import EXTRA, templates

GIVEN = frozenset({"page", "view", "site", "to"})
"""What every template is given; a style sheet only the `site`."""

SHOWN = "theme"
"""The folder, as its author would type it."""

OF_THE_LANGUAGE = frozenset({"self", "super", "loop", "caller", "varargs", "kwargs"})


_Asking: TypeAlias = nodes.Extends | nodes.Include | nodes.Import | nodes.FromImport


@dataclass(frozen=True, slots=True)
class _Template:
    """A template taken apart: the names that it gives, the template that it extends, and those that it takes in.

    Whichever is only known once it is worked out is left out.
    """

    tree: nodes.Template
    gives: frozenset[str]
    extends: str
    takes_in: frozenset[str]


def is_sound(theme: Path, problems: Problems) -> bool:
    """Whether pages can be made with a theme, as far as its templates show; what is wrong with them has been filed."""
    before, jinja, found = len(problems.errors()), environment(theme), dict(_ours())
    own = templates(theme)
    for name in own:
        source = read_text(theme.parent, f"{theme.name}/{name}", problems, shown=f"{SHOWN}/{name}")
        try:
            if source is not None and is_text(source, f"{SHOWN}/{name}", problems):
                found[name] = _taken_apart(jinja.parse(source))
        except TemplateSyntaxError as fault:
            problems.error(Place(f"{SHOWN}/{name}", fault.lineno), fault.message or "this is no template")
        except (RecursionError, ValueError):  # its reader's own bounds
            problems.error(Place(f"{SHOWN}/{name}"), "this nests too deeply, or holds too long a number")
    for name in own.keys() & found.keys():
        _Check(f"{SHOWN}/{name}", name, found, jinja, problems).all()
    spoken = {text.value for it in found.values() for text in it.tree.find_all(nodes.Const)} | _ours().keys() | {EXTRA}
    for name in sorted(name for name in own if name not in spoken and not _is_imported(name, found)):
        what = "template" if name.endswith(".html") else "style sheet"
        near = nearest(name, (*_ours(), EXTRA))
        problems.warning(Place(f"{SHOWN}/{name}"), f"no page and no template asks for this {what}", suggestion=near)
    return len(problems.errors()) == before


def made_of(name: str) -> frozenset[str]:
    """A template of ours, what it extends and takes in, and what those do."""
    ours, found, more = _ours(), set[str](), {name}
    while more:
        found |= more
        more = {it for one in more & ours.keys() for it in (ours[one].extends, *ours[one].takes_in)} - found - {""}
    return frozenset(found)


def _is_imported(name: str, among: Mapping[str, _Template]) -> bool:
    """Whether a style sheet stands by its name in what templates write, as an `@import` or a link."""
    written = (part for it in among.values() for part in it.tree.find_all(nodes.TemplateData))
    return name.endswith(".css") and any(name.rpartition("/")[2] in part.data for part in written)


@cache
def _ours() -> Mapping[str, _Template]:
    """Our own templates: by their names, and by those that stay theirs when an author's is laid over them."""
    jinja = environment(None)
    found = {name: _taken_apart(jinja.parse(path.read_text("utf-8"))) for name, path in templates(themes()).items()}
    return found | {f"!{name}": template for name, template in found.items()}


def _taken_apart(tree: nodes.Template) -> _Template:
    gives = {it.name for it in tree.find_all(nodes.Name) if it.ctx != "load"}
    gives |= {it.name for it in tree.find_all(nodes.Macro)} | {it.target for it in tree.find_all(nodes.Import)}
    for imported in tree.find_all(nodes.FromImport):
        gives |= {it[1] if isinstance(it, tuple) else it for it in imported.names}
    asked = [(isinstance(it, nodes.Extends), name) for it, names in _asked(tree) for name in names if name]
    extends = next((name for extended, name in asked if extended), "")
    return _Template(tree, frozenset(gives), extends, frozenset(name for extended, name in asked if not extended))


def _blocks(template: _Template) -> set[str]:
    return {block.name for block in template.tree.find_all(nodes.Block)}


def _asked(tree: nodes.Template) -> Iterator[tuple[_Asking, list[str]]]:
    """What asks for other templates, and for which, any one of them; "" where it has yet to be worked out."""
    found: Iterator[_Asking] = tree.find_all((nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport))
    for it in found:
        wanted = it.template
        parts = wanted.items if isinstance(wanted, nodes.List | nodes.Tuple) else [wanted]
        names = [str(part.value) if isinstance(part, nodes.Const) else "" for part in parts]
        if not getattr(it, "ignore_missing", False):
            yield it, names


@cache
def _words_of_views() -> frozenset[str]:
    """What our own templates ask of a page's view: a test holds this to all that views have."""
    return frozenset(
        it.attr
        for template in _ours().values()
        for it in template.tree.find_all(nodes.Getattr)
        if isinstance(it.node, nodes.Name) and it.node.name == "view"
    )


@dataclass(frozen=True, slots=True)
class _Check:
    """One template of an author's, among all that there are."""

    path: str
    name: str
    among: Mapping[str, _Template]
    jinja: Environment
    problems: Problems

    @property
    def tree(self) -> nodes.Template:
        return self.among[self.name].tree

    def all(self) -> None:
        """File all that is wrong with it."""
        self._templates()
        self._blocks()
        self._filters_and_tests()
        self._names()
        self._attributes()

    def _error(self, at: nodes.Node, what: str, suggestion: str = "", expected: str = "") -> None:
        self.problems.error(Place(self.path, at.lineno), what, suggestion=suggestion, expected=expected)

    def _templates(self) -> None:
        for it, names in _asked(self.tree):
            known = [name for name in names if not name or name in self.among]
            if not known:
                self._error(it, f'there is no template "{names[0]}"', nearest(names[0], self.among))
            elif isinstance(it, nodes.Extends) and self.name in self._above(known[0]):
                expected = f'another one, as "!{self.name}", which is ours'
                self._error(it, f'"{self.name}" extends itself', expected=expected)

    def _above(self, name: str) -> Iterator[str]:
        """A template and all that it extends, each once."""
        seen = set[str]()
        while name in self.among and name not in seen:
            seen.add(name)
            yield name
            name = self.among[name].extends

    def _blocks(self) -> None:
        seen = set[str]()
        for block in self.tree.find_all(nodes.Block):
            if block.name in seen:
                self._error(block, f'a second block "{block.name}"')
            seen.add(block.name)
        above = {name: _blocks(self.among[name]) for name in self._above(self.among[self.name].extends)}
        known = {block for blocks in above.values() for block in blocks}
        for part in self.tree.body if above else ():
            if isinstance(part, nodes.Block) and part.name not in known:
                self._lost(part, next(iter(above)).removeprefix("!"), known)

    def _lost(self, block: nodes.Block, parent: str, known: set[str]) -> None:
        """Warn of a block that nothing takes in, and say where one of its name stands."""
        now = sorted(name for name, it in _ours().items() if name[0] != "!" and block.name in _blocks(it))
        self.problems.warning(
            Place(self.path, block.lineno),
            f'"{parent}" has no block "{block.name}", so it shows nowhere',
            expected=f"it in {' or '.join(now)}" if now else "",
            suggestion="" if now else nearest(block.name, known),
        )

    def _filters_and_tests(self) -> None:
        for it in self.tree.find_all((nodes.Filter, nodes.Test)):
            what, known = ("filter", self.jinja.filters) if isinstance(it, nodes.Filter) else ("test", self.jinja.tests)
            if it.name not in known:
                self._error(it, f'there is no {what} "{it.name}"', nearest(it.name, known))

    def _names(self) -> None:
        """Names that neither the page, nor the template, nor any that it belongs together with gives."""
        known = {"site"} if self.name.endswith(".css") else set(GIVEN)
        known |= {*OF_THE_LANGUAGE, *self.jinja.globals}
        for name in self._kin():
            known |= self.among[name].gives
        doubted = self._doubted(nodes.Name)
        for it in self.tree.find_all(nodes.Name):
            if it.ctx == "load" and it.name not in known and it.name not in doubted:
                self._error(it, f'nothing is called "{it.name}" here', nearest(it.name, known - OF_THE_LANGUAGE))

    def _attributes(self) -> None:
        known = {
            "page": {field.name for field in fields(Page)},
            "site": {field.name for field in fields(Site)},
            "view": _words_of_views() | FORMER.keys(),
        }
        shadowed, doubted = self.among[self.name].gives, self._doubted(nodes.Getattr)
        for it in self.tree.find_all(nodes.Getattr):
            whose = it.node.name if isinstance(it.node, nodes.Name) else ""
            if whose in known and whose not in shadowed and it.attr not in known[whose] | doubted:
                self._error(it, f'no {whose} has "{it.attr}"', nearest(it.attr, known[whose]))

    def _doubted(self, kind: type[nodes.Name | nodes.Getattr]) -> set[str]:
        """The words that the template itself asks about, whether there is such a thing."""
        asking = {"defined", "undefined", "default", "d"}
        about = (it.node for it in self.tree.find_all((nodes.Test, nodes.Filter)) if it.name in asking)
        return {it.name if isinstance(it, nodes.Name) else it.attr for it in about if isinstance(it, kind)}

    def _kin(self) -> set[str]:
        """The templates whose names this one may use: what it extends, what takes it in, and theirs."""
        kin, more = set[str](), {self.name}
        while more:
            kin |= more
            more = {self.among[name].extends for name in more} | {
                name for name, it in self.among.items() if more & it.takes_in
            }
            more = (more & self.among.keys()) - kin
        return kin
