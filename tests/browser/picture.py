"""Take the README's picture anew: the head and two charts of a recipe's page in `site_demo/`, side by side.

python tests/browser/picture.py
"""

from __future__ import annotations

import io
import shutil
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, ViewportSize, sync_playwright

ROOT = Path(__file__).parents[2]
RECIPE = ROOT / "site_demo" / "quillmere-best.html"
PICTURE = ROOT / ".pictures" / "recipe-page.png"
WINDOW = ViewportSize(width=720, height=1000)


def shot(page: Page, selector: str) -> Image.Image:
    """The window, scrolled so that an element stands at its top."""
    page.locator(selector).first.evaluate("it => window.scrollTo(0, it.getBoundingClientRect().top + scrollY - 24)")
    return Image.open(io.BytesIO(page.screenshot()))


def main() -> None:
    """Write the picture."""
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport=WINDOW, color_scheme="light", device_scale_factor=1)
        page.goto(RECIPE.as_uri())
        shots = [shot(page, "body"), shot(page, ".pictures")]
        browser.close()
    joined = Image.new("RGB", (sum(image.width for image in shots), WINDOW["height"]))
    for place, image in enumerate(shots):
        joined.paste(image, (place * WINDOW["width"], 0))
    PICTURE.parent.mkdir(exist_ok=True)
    joined.save(PICTURE, optimize=True)
    print(f"{PICTURE.relative_to(ROOT)}: {PICTURE.stat().st_size // 1024} KiB")


if __name__ == "__main__":
    main()
