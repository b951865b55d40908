"""Which figures a working tells, and where on its page each stands: the lineage of all that some brews' pages show."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass

from gristbook.sheet.origin import By, Chosen, Decided, Given, Read, Reckoned, Worked, put_in
from gristbook.sheet.value import Value, lineage
from gristbook.site.addresses import Anchors, slug

SHORT = 3
"""Arithmetic of so many numbers that no page shows stands in the line that uses it; longer sums have their own."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A figure whose working stands on another page, at ``path``, and who says what it is."""

    value: Value
    origin: str
    path: str


@dataclass(frozen=True, slots=True)
class Group:
    """What pages show of one part of a brew, and the figure that it comes to.

    ``others`` is what every model makes of it, where a book chooses between models. ``about`` says in a sentence how it
    comes about.
    """

    title: str
    values: Sequence[Value]
    others: Sequence[Value] = ()
    comes_to: Value | None = None
    about: str = ""


@dataclass(frozen=True, slots=True)
class Kettle:
    """What one page of figures shows: a brew of a beer, a batch, a brewhouse or a thing of the pantry.

    ``slug`` is "" for the first of a page, and ``words`` are short; ``names`` are the figures whose anchor is their own
    name. ``things`` is what it is made from, by name; ``decided`` are weights that were decided on for this kettle.
    ``lines`` tells one line of a thing from another, by the identity of the values that each gives.
    """

    words: str
    page: str
    groups: Sequence[Group]
    names: Mapping[str, Value] = field(default_factory=dict)
    slug: str = ""
    things: Collection[str] = ()
    decided: Sequence[Value] = ()
    lines: Mapping[int, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Told:
    """A figure of one kettle: its name on the page, the part it stands in, and whether it is another model's."""

    value: Value
    name: str
    part: str
    folded: bool


class Walk:
    """Every figure that one kettle's pages rest on, each once, what goes in before what comes out.

    ``first`` is the walk of the recipe as it is written, whose figures another kettle may have been decided by.
    """

    def __init__(
        self, kettle: Kettle, taken: Iterable[str], ends: Mapping[int, Elsewhere], first: Walk | None = None
    ) -> None:
        self.kettle, self.ends, self.first = kettle, ends, first
        self.told: list[Told] = []
        self.names: dict[int, str] = {}
        self._kept: list[Value] = []
        self._by_meaning: dict[object, str] = {}
        self._free = Anchors("main", *taken)
        self._own = {id(value): name for name, value in reversed([*kettle.names.items()])}
        self._shown = {id(value) for group in kettle.groups for value in (*group.values, *group.others)}
        self._names_shown: set[str] = set()
        self._walked: set[int] = set()
        self._long: dict[int, int] = {}
        self._things: dict[str, str] = {}
        self._lines: dict[int, tuple[str, ...]] = {}
        self._decided = {id(value.origin) for value in kettle.decided}
        for group in kettle.groups:
            self._part(group)
        self._decisions(kettle.groups[0].title if kettle.groups else "")

    def named(self) -> Iterator[tuple[Value, str]]:
        """Every figure that was told, and its name."""
        return ((value, self.names[id(value)]) for value in self._kept)

    def name(self, value: Value) -> str:
        """What a figure goes by on the page; "" for a constant, and for arithmetic in the line that uses it."""
        if id(value) in self.names or self.first is None:
            return self.names.get(id(value), "")
        return self.first.name(value)

    def _part(self, group: Group) -> None:
        for value in self._lineage(group.values, self._given_here):
            self._tell(value, group.title)
        for value in self._lineage(group.others, self._given_here):
            if self.first is None or id(value) in self._shown:  # the steps between are told of the recipe as written
                self._tell(value, group.title, folded=True)

    def _lineage(self, values: Iterable[Value], until: Callable[[Value], bool]) -> Iterator[Value]:
        for root in (it for it in values if id(it) not in self._walked):
            for value in lineage(root, until=lambda it: id(it) in self._walked or until(it)):
                self._walked.add(id(value))
                yield value

    def _given_here(self, value: Value) -> bool:
        """Whether a kettle takes a figure as it is: it is told elsewhere, or was decided on for this kettle."""
        if id(value) in self.ends:
            return True
        origin = value.origin
        while isinstance(origin, Decided | Read):
            if id(origin) in self._decided:
                return True
            origin = origin.of.origin
        return False

    def _decisions(self, part: str) -> None:
        """How a kettle's own weights came about, down to what is told of it, or of the recipe, already."""
        same = {words_of(it.value) for it in self.told if id(it.value.origin) not in self._decided}
        known = self.first.names if self.first else {}
        for decided in self.kettle.decided:
            own = [it for it in put_in(decided.origin) if id(it) not in known]
            for value in lineage(*own, until=lambda it: id(it) in known or id(it) in self.names or it.label in same):
                if id(value) not in known and value.label not in same:
                    self._tell(value, part, before="to weigh ")

    def _tell(self, value: Value, part: str, *, folded: bool = False, before: str = "") -> None:
        """Give a figure its name, the same to what cannot be told apart from it."""
        if id(value) in self.names or self.in_line(value):
            return
        meaning = self._meaning(value)
        name = self._by_meaning.get(meaning)
        if name is None:
            constant = isinstance(value.made, Given) and value.made.by is By.CONSTANT
            name = "" if constant else self._free.take(before + self._own.get(id(value), words_of(value)))
            self._by_meaning[meaning] = name
            if name:
                self.told.append(Told(value, name, part, folded))
        self.names[id(value)] = name
        if name and id(value) in self._shown:
            self._names_shown.add(name)
        self._kept.append(value)  # or its identity might be given to another

    def thing(self, value: Value) -> str:
        """The thing that a figure is of, by its words; the longest, since one name may begin another."""
        found = self._things.get(value.label)
        if found is None:
            found = max((it for it in self.kettle.things if it in value.label), key=len, default="")
            self._things[value.label] = found
        return found

    def line(self, value: Value) -> str:
        """What tells the line that a figure of a thing rests on from others of that thing; "" where nothing does."""
        return " with ".join(self._rests_on(value)) if self.thing(value) else ""

    def _rests_on(self, value: Value) -> tuple[str, ...]:
        """The lines that a figure rests on: by what goes into it of the same thing, or else by its minutes."""
        if id(value) not in self._lines:
            known = (self.kettle.lines, self.first.kettle.lines if self.first else {})
            own = [lines[id(it)] for it in itself(value) for lines in known if id(it) in lines]
            parts, thing = [*put_in(value.origin)], self.thing(value)
            found = own[:1] or [
                line for it in parts if thing and self.thing(it) == thing for line in self._rests_on(it)
            ]
            found = found or [line for it in parts if it.unit == "min" for line in self._rests_on(it)]
            self._lines[id(value)] = (*dict.fromkeys(found),)
        return self._lines[id(value)]

    def shown(self, value: Value) -> bool:
        """Whether pages show a figure themselves, or one that cannot be told apart from it, and not only rest on it."""
        return id(value) in self._shown or self.names.get(id(value), "") in self._names_shown

    def in_line(self, value: Value) -> bool:
        """Whether a value stands in the line that uses it: what has no words, and short sums that no page shows."""
        if not value.label:
            return True
        if id(value) in self._shown or self._given_here(value) or not isinstance(value.made, Reckoned):
            return False
        return self._leaves(value) <= SHORT

    def _leaves(self, value: Value) -> int:
        """How many numbers stand in a line of arithmetic; counted once, since a line may be used by many others."""
        made, known = value.made, self._long.get(id(value))
        if known is None:
            known = 1
            if isinstance(made, Reckoned):
                known = sum(self._leaves(it) if self.in_line(it) else 1 for it in made.parts)
            self._long[id(value)] = known
        return known

    def _meaning(self, value: Value) -> object:
        match value.made:
            case _ if id(value) in self.ends:
                return value, "elsewhere"
            case Given(words=words, place=place):
                return value, words, place
            case made:
                does = made.equation.name if isinstance(made, Worked) else made.sign
                return value, does, tuple(self._token(it) for it in put_in(made))

    def _token(self, value: Value) -> object:
        return (value.number, self.name(value)) if not self.in_line(value) else self._meaning(value)


def walked(
    kettles: Sequence[Kettle], taken: Iterable[str] = (), elsewhere: Mapping[int, Elsewhere] | None = None
) -> tuple[Walk, ...]:
    """Which figures a page of some kettles' workings tells.

    Parameters
    ----------
    kettles : the first is the recipe as it is written, which the others are compared with
    taken : the anchors that the page has given away already
    elsewhere : by their identity, the values that are worked out on another page
    """
    marks = (f"kettle-{n}" for n in ("all", *range(len(kettles))))
    names = [*taken, "as-written", *(it.slug for it in kettles if it.slug), *marks, *map(slug, parts_of(kettles))]
    walks: list[Walk] = []
    for kettle in kettles:
        walks.append(Walk(kettle, names, elsewhere or {}, walks[0] if walks else None))
    return tuple(walks)


def told_of(walks: Iterable[Walk]) -> tuple[Value, ...]:
    """Every figure that is told of some kettles."""
    return tuple(it.value for walk in walks for it in walk.told)


def parts_of(kettles: Iterable[Kettle]) -> dict[str, None]:
    """The parts of a page, in the order of the brew."""
    return dict.fromkeys(group.title for kettle in kettles for group in kettle.groups)


def itself(value: Value) -> Iterator[Value]:
    """A number, and the same before it was decided on, read, or chosen among models."""
    yield value
    while isinstance(value.origin, Decided | Read | Chosen):
        value = value.origin.of
        yield value


def words_of(value: Value) -> str:
    """What a figure is called; a weight goes by its own name, also where a kettle's scale has rounded it."""
    return value.label.removesuffix(", rounded")


def without(thing: str, words: str) -> str:
    """Words for any thing of a kind, from those for one of them.

    >>> without("Fuggle", "weight of Fuggle"), without("Caramel malt", "Caramel malt, share by weight")
    ('weight', 'share by weight')
    """
    if not thing:
        return words
    for said in (f" of {thing}", f" from {thing}", f"{thing}, "):
        words = words.replace(said, "")
    return words.replace(thing, "it")


def values_in(record: object, without: tuple[type, ...] = ()) -> Iterator[Value]:
    """Every value in a record, its records and its lists, in the order of the fields; not in records ``without``."""
    if isinstance(record, Value):
        yield record
    elif is_dataclass(record) and not isinstance(record, without):
        for it in fields(record):
            yield from values_in(getattr(record, it.name), without)
    elif isinstance(record, tuple):
        for member in record:
            yield from values_in(member, without)
