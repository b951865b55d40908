"""Lines of hops to the model."""

import re
from dataclasses import replace

from gristbook.model.amount import Wanted, Weight
from gristbook.model.brings import NOTHING
from gristbook.model.hop import Hop, HopForm, Store
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, HopUse, Stage, Stand
from gristbook.pantry import records
from gristbook.reading import fields as f
from gristbook.reading.line import Line
from gristbook.reading.lines import meant
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.allergens import on_line
from gristbook.text.assumed import ALPHA, assumed_hop
from gristbook.text.brew import Brew
from gristbook.text.hop_use import named_uses, read_use
from gristbook.text.parts.common import AGE
from gristbook.text.parts.hops import EXTRACT_ALPHA, FORMS, ROLES, STORE
from gristbook.text.values import Desk, by_default, from_pantry, in_days, said

EXTRACT_DENSITY = 1.0
"""Grams in a millilitre of hop extract (common practice, no source: 0.95 to 1.05)."""

PACKAGES = {"open": 1.0, "airtight": 0.75, "under vacuum": 0.5}
"""How many times as fast alpha acids go as in the open: after Garetz 1994, from memory."""

_STORE = rf"(?P<days>.+?) at (?P<heat>.+?)(?: (?P<kept>{'|'.join(PACKAGES)}))?"


def read_hop(node: Node, brew: Brew, desk: Desk) -> Hop:
    """A line under `hops`; `Unreadable` where it cannot be read."""
    line = desk.line(node, "hops")
    match = desk.pantry.hops.look_up(line.name.value)
    form, use = _form(line), read_use(line, brew)
    alpha = line.read(line.get("alpha"), EXTRACT_ALPHA if form == "extract" else f.ALPHA)
    boiled = not isinstance(use, BeforePackaging | Stage)
    found = desk.only(line, match, "hop", ALPHA, lambda line: assumed_hop(line, alpha, needed=boiled))
    record = found.record
    if use is None:
        raise Unreadable
    amount = _amount(line, record.name, use, form, brew)
    if amount is None or (line.get("alpha") and alpha is None):
        raise Unreadable
    if alpha is None and form == "extract":
        raise line.error("no alpha acids for the extract", "what its label says, as 60 % alpha")
    if alpha is None and boiled:
        line.warning(
            f"no alpha acids for {record.name}: {100 * record.alpha.typical:.1f} % is taken, which is typical",
            "the packet's own figure, as 4.5 % alpha",
        )
    if isinstance(amount, Wanted) and not _can_bring_it(use, alpha):
        what = "without time, or without alpha acids, no amount of hops brings bitterness"
        raise line.error(what)
    label = f"alpha acids of {record.name}"
    return Hop(
        name=record.name,
        amount=amount,
        alpha=said(alpha, label, usual="alpha") if alpha else from_pantry(record.alpha, label, usual="alpha"),
        alpha_assumed=alpha is None,
        crops=(record.alpha.low, record.alpha.high),
        store=_store(line.get("stored"), record, line),
        storage_index=_storage_index(line, record.name),
        form=form,
        use=use,
        aroma=record.aroma,
        place=line.place,
        brings=on_line(line, NOTHING, desk),
        called=_called(line),
        own_words=found.own_words,
        note=line.note,
        assumed=found.assumed,
    )


def _form(line: Line) -> HopForm:
    """The form that a line says, or that is all of its name, as "hop extract"; wet hops are used as they are picked."""
    said_of = (line.get("form") or line.name).value
    form: HopForm = next(
        (form for form, words in FORMS if any(fits(words, it) for it in said_of.split(", "))), "pellets"
    )
    if form == "wet" and (line.get("stored") or line.get("HSI")):
        raise line.error("wet hops are not kept", "no store, or dried hops")
    return form


def _called(line: Line) -> str:
    """The trade's word that a line has for its addition; what it is there for, where it has none for its use."""
    role = line.get("role")
    return next(filter(None, named_uses(line).values()), "") or (meant(role, ROLES) if role else "")


def _can_bring_it(use: HopUse, alpha: Quantity | None) -> bool:
    boiled = isinstance(use, FirstWort) or (isinstance(use, BeforeTheEnd | Stand) and use.minutes.number > 0)
    return boiled and (alpha is None or alpha.number > 0)


def _store(text: Text | None, record: records.Hop, line: Line) -> Store | None:
    """How the hops were kept; a variety that nobody has stored for science loses what most do."""
    if text and fits(AGE, re.sub(r"\s+old$", "", text.value)):
        what = (
            f'"{text.value}": without a temperature the store is not reckoned, and the alpha acids count as they stand'
        )
        line.warning(what, "stored 30 weeks at 4 °C", at=text)
        return None
    said_of = line.pieces(text, _STORE, STORE) if text else None
    if said_of is None:
        return None
    days, heat = line.read(said_of["days"], f.DAYS), line.read(said_of["heat"], f.TEMPERATURE)
    if days is None or heat is None:
        return None
    return Store(
        in_days(days, f"time in store of {record.name}"),
        said(heat, f"temperature of the store of {record.name}"),
        lost_in_six_months(record),
        _package(said_of.get("kept")),
    )


def _package(kept: Text | None) -> Value | None:
    if kept is None:
        return None
    origin = f"{kept.word}, after Garetz 1994"
    return given(
        PACKAGES[kept.word],
        "ratio",
        f"hops kept {kept.word}",
        words=origin,
        by=By.AUTHOR,
        written=kept.value,
        place=kept.place,
    )


def _storage_index(line: Line, name: str) -> Value | None:
    """What a laboratory found; it knows of the store already, so that both would count the loss twice."""
    index = line.quantity("HSI")
    if index is not None and line.get("stored") is not None:
        what = "HSI tells what was lost in store already, so a line says one or the other"
        line.error(what, "HSI 0.35, or stored 30 weeks at 4 °C")
    return said(index, f"hop storage index of {name}", unit="ratio") if index else None


def lost_in_six_months(record: records.Hop) -> Value:
    """Share of the alpha acids gone after six months at 20 °C in the open."""
    label, keeps = f"alpha acids that {record.name} loses in six months", record.keeps
    if keeps is None:
        return by_default(0.4, "fraction", label, "most varieties lose 20 to 60 %; from memory", "lost in store")
    low, high = (keeps.low, keeps.high) if keeps.low < keeps.high else (keeps.typical - 0.1, keeps.typical + 0.1)
    return from_pantry(replace(keeps, typical=1 - keeps.typical, low=1 - high, high=1 - low), label)


def _amount(line: Line, name: str, use: HopUse, form: HopForm, brew: Brew) -> Weight | Wanted | None:
    """The weight or the bitterness to reach; `None` with a problem filed where there is neither."""
    amount = line.amount
    if amount is None:
        line.error(f"no amount of {line.name.value}", "an amount, as 28 g")
    elif amount.base == "kg":
        return Weight(said(amount, f"weight of {name}", unit="g", factor=1000.0))
    elif amount.base == "g/L":
        return Weight(brew.dosed(amount, name))
    elif amount.base == "L" and form == "extract":
        origin = f"a millilitre taken as {EXTRACT_DENSITY:g} g, common practice, no source; the recipe"
        return Weight(said(amount, f"weight of {name}", unit="g", factor=1000.0 * EXTRACT_DENSITY, origin=origin))
    elif amount.base == "IBU" and amount.number > f.BITTERNESS.most:
        line.error(f'"{amount.text}" is too much', f.BITTERNESS.words, at=amount)
    elif amount.base == "IBU" and not isinstance(use, BeforePackaging | Stage):
        return Wanted(said(amount, f"bitterness wanted of {name}"))
    elif amount.base == "IBU":
        what = "bitterness of hops in the mash is not reckoned" if use is Stage.MASH else "dry hops bring no bitterness"
        line.error(what, "a weight", at=amount)
    else:
        line.error(f'"{amount.text}" is not a weight', "a weight, as 28 g, or 22 IBU", at=amount)
    return None
