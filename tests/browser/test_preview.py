"""A preview in a browser: the page follows what is saved, and what is wrong lies over the page as it last was."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Thread

import pytest
import reed_bank
from playwright.sync_api import Browser, Page, expect

from gristbook.preview.server import Server
from gristbook.preview.shown import Preview
from gristbook.preview.watching import saves

MILD = reed_bank.MILD + reed_bank.STORY


@dataclass(frozen=True, slots=True)
class Previewed:
    """A page of a book in a window, the book's folder, and everything that the page complained of."""

    page: Page
    folder: Path
    address: str
    complaints: list[str]

    def save(self, text: str, name: str = "mild") -> None:
        (self.folder / f"{name}.md").write_text(text, "utf-8")


@pytest.fixture
def previewed(browser: Browser, tmp_path: Path) -> Iterator[Previewed]:
    folder, ended = tmp_path / "book", Event()
    folder.mkdir()
    (folder / "book.yaml").write_text("title: A book of two beers\n", "utf-8")
    for name in ("mild", "bitter"):
        (folder / f"{name}.md").write_text(MILD.replace("Mild", name.title()), "utf-8")
    faults: list[Exception] = []
    preview = Preview(folder, faults.append)

    def follow() -> None:
        for changed in saves(folder):
            if ended.is_set():
                return
            if changed:
                preview.look()

    page = browser.new_context(viewport={"width": 360, "height": 640}).new_page()
    with Server(preview, 0, faults.append) as server:
        Thread(target=server.serve_forever, daemon=True).start()
        watching = Thread(target=follow, daemon=True)
        watching.start()
        it = Previewed(page, folder, server.address, [])
        page.on("console", lambda message: it.complaints.append(message.text))
        page.on("pageerror", lambda fault: it.complaints.append(str(fault)))
        yield it
        page.context.close()
        ended.set()
        server.shutdown()
        watching.join(10)
    assert (it.complaints, faults) == ([], [])


def test_a_page_follows_its_recipe_and_what_is_wrong_lies_over_it(previewed: Previewed) -> None:
    page, said = previewed.page, previewed.page.locator("#gristbook-preview summary")
    page.goto(f"{previewed.address}mild.html")
    expect(said).to_have_text("Preview: nothing wrong")
    page.evaluate("scrollTo(0, 300)")
    previewed.save(MILD.replace("afternoon", "evening"))
    expect(page.get_by_text("Drunk in the evening.")).to_be_attached()
    page.wait_for_function("scrollY == 300")

    page.evaluate("window.stays = true")
    previewed.save(MILD.replace("2.4 kg", "2.4 kgg"))
    problem = page.locator("#gristbook-preview li")
    expect(problem).to_have_text('mild.md:5 error: unknown unit "kgg" in "2.4 kgg pale ale malt"; did you mean "kg"?')
    expect(problem).to_be_visible()
    expect(said).to_have_text("As it last was: 1 error")
    assert page.get_by_text("Drunk in the evening.").count() == 1
    assert page.evaluate("window.stays"), "a page that looks as before is not loaded anew"
    over = page.locator("#gristbook-preview details").bounding_box()
    assert over is not None
    assert over["x"] >= 0
    assert over["x"] + over["width"] <= 360

    page.goto(previewed.address)
    expect(problem.get_by_role("link", name="mild.md:5")).to_be_visible()
    problem.get_by_role("link").click()
    expect(page).to_have_url(f"{previewed.address}mild.html")
    previewed.save(MILD)
    expect(said).to_have_text("Preview: nothing wrong")
    expect(problem).to_have_count(0)
    expect(page.get_by_text("Drunk in the afternoon.")).to_be_attached()


def test_what_is_saved_is_led_to_until_one_would_rather_stay(previewed: Previewed) -> None:
    page, said = previewed.page, previewed.page.locator("#gristbook-preview summary")
    page.goto(f"{previewed.address}bitter.html")
    expect(said).to_have_text("Preview: nothing wrong")
    previewed.save(MILD.replace("afternoon", "evening"))
    page.wait_for_url("**/mild.html")
    expect(said).to_have_text("Preview: nothing wrong")
    said.click()
    page.get_by_label("lead me to the page of the file that I save").uncheck()
    previewed.save(MILD.replace("Mild", "Bitter").replace("2.4 kg", "2.4 kgg"), "bitter")
    expect(said).to_have_text("Preview: 1 error")
    assert page.url == f"{previewed.address}mild.html"
