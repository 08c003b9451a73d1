"""Draws the app's icons from icon.svg: `uv run frontend/tools/icons.py` (needs Chromium).

A maskable icon may be cut to a circle of 80 % of its width (W3C Web App Manifest, "safe zone"), so
there the mark is drawn smaller on the same ground.
"""

import shutil
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

HERE = Path(__file__).resolve().parent
ICONS = HERE.parent / "public" / "icons"
# name: side in pixels, share of the side that the mark keeps
SIZES = {
    "icon-192": (192, 1.0),
    "icon-512": (512, 1.0),
    "maskable-512": (512, 0.74),
    "apple-touch-180": (180, 0.92),
}


def draw(page: Page, name: str, side: int, share: float) -> None:
    """Render the drawing at one size and keep it as a PNG."""
    svg = (HERE / "icon.svg").read_text(encoding="utf-8")
    shift = 256 * (1 - share)
    svg = svg.replace('id="mark"', f'transform="translate({shift} {shift}) scale({share})"')
    page.set_viewport_size({"width": side, "height": side})
    page.set_content(f"<style>*{{margin:0}}svg{{display:block;width:{side}px;height:{side}px}}</style>{svg}")
    page.screenshot(path=ICONS / f"{name}.png")


def main() -> None:
    """Draw every size and copy the drawing itself, which browsers take for the tab."""
    ICONS.mkdir(parents=True, exist_ok=True)
    shutil.copy(HERE / "icon.svg", ICONS / "icon.svg")
    with sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page()
        for name, (side, share) in SIZES.items():
            draw(page, name, side, share)
        browser.close()


if __name__ == "__main__":
    main()
