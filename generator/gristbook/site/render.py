"""From a page and its view to bytes: Jinja2 with the book's own templates laid over ours.

A book's `theme/recipe.html` is taken instead of ours; it may begin with `{% extends "!recipe.html" %}`, since a name
with a `!` in front is always ours. The style sheet is a template too, so that an author's may include `!style.css`.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import reduce
from hashlib import sha256
from pathlib import Path
from typing import Any

from jinja2 import (
    BaseLoader,
    ChoiceLoader,
    Environment,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
    TemplateError,
    TemplateSyntaxError,
    is_undefined,
    select_autoescape,
)

from gristbook.reading.files import Outside, inside, themes
from gristbook.sheet.value import Value
from gristbook.site.addresses import way
from gristbook.site.amounts import from_to
from gristbook.site.beer.ingredients import hop_when
from gristbook.site.beer.tables import model_name
from gristbook.site.brew.batch_words import THROUGH, said_of
from gristbook.site.dates import curly, dated, day
from gristbook.site.figures import Figure, seen, unlinked
from gristbook.site.pages import Page, Site
from gristbook.site.prose import line, plain
from gristbook.site.shelf.sources_page import WORKS
from gristbook.site.themes import assets
from gristbook.site.words import capital, kept_words
from gristbook.site.working.formulas import drawn
from gristbook.targets.advice.caution_rows import AID

FORMER: Mapping[str, tuple[str, ...]] = {
    "also": ("thing.also",),
    "at": ("brew.at", "brewed.at"),
    "bitterness": ("brew.plan.figures.bitterness.total",),
    "brewhouse": ("brew.plan.brewhouse.name", "brewed.figures.batch.brewhouse", "batch.brewhouse"),
    "card": ("at.card",),
    "cautions": ("care",),
    "citation": ("work.citation",),
    "family": ("style.family",),
    "frozen": ("brewed.figures.batch.frozen.sections",),
    "gain_in_stand": ("brew.plan.figures.bitterness.gain_in_stand",),
    "half_letter": ("card",),
    "heat": ("step.temperature",),
    "id": ("colour",),
    "key": ("work.key",),
    "losses": ("brewed.figures.losses",),
    "mover": ("value.mover",),
    "name": ("thing.name", "style.name", "hop.name"),
    "no_lesson": ("brewed.figures.batch.no_lesson",),
    "note": ("work.note",),
    "notes": ("edition.made.notes",),
    "paper": ("paper",),
    "path": ("at.page",),
    "recipe": ("brew.at.page", "beer.home.at.page"),
    "shown": ("value.text",),
    "source": ("style.source",),
    "span": ("value.between",),
    "stamp": ("brew",),
    "standing": ("work.standing",),
    "style": ("brew.plan.recipe.style.name",),
    "tastings": ("brewed.figures.batch.tastings",),
    "thrown_away": ("brewed.figures.batch.thrown_away", "batch.thrown_away"),
    "time": ("step.minutes",),
    "words": ("edition.words",),
    "written": ("beer.words",),
}
"""What templates of earlier versions ask for, and where it stands now: the first of these whose beginning is there."""


def _fingerprint(block: str) -> str:
    """What a content policy names a block of a page by: only this very text may stand there."""
    return "sha256-" + b64encode(sha256(block.encode()).digest()).decode()


FILTERS: Mapping[str, Callable[..., object]] = {
    "after": AID.__getitem__,
    "capital": capital,
    "curly": curly,
    "dated": dated,
    "day": day,
    "drawn": drawn,
    "fingerprint": _fingerprint,
    "kept": kept_words,
    "line": line,
    "model": model_name,
    "numbered": WORKS.__getitem__,
    "plain": plain,
    "range": lambda span: from_to(*span),
    "through": THROUGH.__getitem__,
    "verdict": said_of,
    "when": hop_when,
}
"""What a template may make of a word: ours and an author's."""


class Broken(Exception):
    """An author's template cannot be rendered: its file, the line where it is known, and why."""

    def __init__(self, path: str, line: int, why: str) -> None:
        super().__init__(f"{path}:{line}: {why}")
        self.path, self.line, self.why = path, line, why


def _held(theme: Path, name: str) -> None:
    """Raise `Broken` where a file of a theme lies outside of its book."""
    try:
        inside(theme.parent, f"{theme.name}/{name}")
    except Outside as fault:
        raise Broken(f"theme/{name}", 1, str(fault.strerror)) from fault


class _Own(FileSystemLoader):
    """The author's templates, links out of the book left out."""

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        _held(Path(self.searchpath[0]), template)
        return super().get_source(environment, template)


_HOLDS_VALUES = frozenset((Value, tuple))


class _Jinja(Environment):
    """Gives a template, for every value that it asks for, the figure of it on the page at hand."""

    figure: Callable[[Value], Figure] = staticmethod(unlinked)

    def getattr(self, obj: Any, attribute: str) -> Any:
        try:
            found = getattr(obj, attribute)
        except AttributeError:
            for now in FORMER.get(attribute, ()):
                first, *others = now.split(".")
                if hasattr(obj, first):
                    return reduce(self.getattr, others, self.getattr(obj, first))
            found = super().getattr(obj, attribute)
            if is_undefined(found) and is_dataclass(obj):
                has = ", ".join(field.name for field in fields(obj))
                return self.undefined(f'no {type(obj).__name__} has "{attribute}"; it has {has}', obj, attribute)
        return seen(found, self.figure) if type(found) in _HOLDS_VALUES else found

    def filter(self, function: Callable[..., object]) -> Callable[..., object]:
        """What gives a template the figures in what a function gives."""
        return lambda *given: seen(function(*given), self.figure)


class Renderer:
    """Renders the pages of one site; ``sound`` tells whether the theme's templates can be read at all.

    ``before`` is one of the same theme, whose templates are read already.
    """

    def __init__(
        self, site: Site, theme: Path | None = None, before: Renderer | None = None, *, sound: bool = True
    ) -> None:
        self._sound = sound
        self._site, self._theme = site, theme if theme and theme.is_dir() else None
        self._jinja: _Jinja = before._jinja if before and before._theme == self._theme else environment(self._theme)

    def forget(self) -> None:
        """Read every template anew."""
        self._jinja = environment(self._theme)

    def page(self, page: Page) -> bytes:
        """One page as HTML.

        Raises
        ------
        Broken
            A template of the author's is at fault.
        """
        site = self._site if page.us_first is None else replace(self._site, us_first=page.us_first)
        self._jinja.figure = page.figure
        return self._rendered(
            page.template, {"page": page, "view": page.view, "site": site, "to": lambda path: way(page.path, path)}
        )

    def assets(self) -> dict[str, bytes]:
        """What pages are dressed in: the style sheet, and every other file of the themes that is no template.

        Raises
        ------
        Broken
            The author's style sheet is at fault.
        """
        found: dict[str, bytes] = {}
        for folder in (themes(), self._theme):
            for name, path in assets(folder).items() if folder else ():
                if self._theme and folder is self._theme:
                    _held(self._theme, name)
                is_sheet = path.suffix == ".css"
                try:
                    found[name] = self._rendered(name, {"site": self._site}) if is_sheet else path.read_bytes()
                except OSError as fault:
                    raise Broken(f"theme/{name}", 1, f"this file cannot be read: {fault.strerror}") from fault
        return found

    def _rendered(self, template: str, context: dict[str, object]) -> bytes:
        try:
            return self._jinja.get_template(template).render(context).encode()
        except Broken:
            raise
        except TemplateSyntaxError as fault:
            raise self._broken(fault, fault.filename or "", fault.lineno) from fault
        except Exception as fault:
            if not self._sound:
                raise Broken("theme", 1, str(fault)) from fault
            where = self._last_line_of_ours_or_theirs(fault)
            if isinstance(fault, TemplateError) or where[0]:
                raise self._broken(fault, *where) from fault
            raise

    def _last_line_of_ours_or_theirs(self, fault: BaseException) -> tuple[str, int]:
        """The innermost line of an author's template that the fault went through."""
        found, trace = ("", 1), fault.__traceback__
        while trace:
            file = trace.tb_frame.f_code.co_filename
            if self._theme and Path(file).is_relative_to(self._theme):
                found = (file, trace.tb_lineno)
            trace = trace.tb_next
        return found

    def _broken(self, fault: BaseException, file: str, line: int) -> BaseException:
        """The author's fault as a `Broken`; ours as it is."""
        if self._theme and file and Path(file).is_relative_to(self._theme):
            inside = Path(file).relative_to(self._theme).as_posix()
            return Broken(f"theme/{inside}", line, str(fault))
        return fault


def environment(theme: Path | None) -> _Jinja:
    """Our templates, those of a theme laid over them, and what may be said in them."""
    ours = FileSystemLoader(themes())
    loaders: list[BaseLoader] = [_Own(theme)] if theme else []
    made = _Jinja(
        loader=ChoiceLoader([*loaders, ours, PrefixLoader({"": ours}, delimiter="!")]),
        undefined=StrictUndefined,
        autoescape=select_autoescape(["html", "svg", "xml"]),
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    made.filters |= {name: made.filter(function) for name, function in FILTERS.items()}
    return made
