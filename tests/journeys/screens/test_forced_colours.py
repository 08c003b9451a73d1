"""With a person's own two colours, light on dark or dark on light, nothing that is drawn vanishes."""

from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest

from tests.journeys import acts, demo
from tests.journeys.browsers import MakePhone
from tests.journeys.chromium import Chromium

# Every shape and letter of a drawing stands out from the person's own paper, by its line or by its fill.
VANISHED = """
const probe = document.body.appendChild(document.createElement("div"));
probe.style.cssText = "forced-color-adjust: none; color: Canvas";
const levels = (text) => (text.match(/[\\d.]+/g) ?? []).map(Number);
const light = ([r, g, b]) => {
  const linear = (one) => (one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4);
  const [x, y, z] = [r, g, b].map((one) => linear(one / 255));
  return 0.2126 * x + 0.7152 * y + 0.0722 * z;
};
const paper = light(levels(getComputedStyle(probe).color));
probe.remove();
const stands = (paint) => {
  if (paint === "none" || paint.startsWith("url")) return false;
  const [r, g, b, a = 1] = levels(paint);
  const [most, least] = [paper, light([r, g, b])].sort((one, other) => other - one);
  return a > 0.3 && (most + 0.05) / (least + 0.05) >= 3;
};
const found = new Set();
for (const one of document.querySelectorAll("svg :is(path, line, circle, rect, text, polygon, polyline)")) {
  if (one.closest("defs, clipPath, mask, pattern, .zone-cut__ground") || !one.checkVisibility()) continue;
  const { stroke, fill } = getComputedStyle(one);
  if (stroke === "none" && (fill === "none" || fill.startsWith("url"))) continue;
  const name = one.getAttribute("class") ?? one.tagName;
  if (!stands(stroke) && !stands(fill))
    found.add(`${one.closest("svg").getAttribute("class")}: ${name} ${stroke} ${fill}`);
}
return [...found];
"""
# A mark that is nothing but a filled box is gone where boxes lose their fill: it needs a line of its own.
FLAT = """
const found = new Set();
for (const one of document.querySelectorAll(".tag, .button, .choices label")) {
  const { borderStyle, borderWidth, outlineStyle } = getComputedStyle(one);
  const quiet = one.classList.contains("button--quiet");
  if (!quiet && (borderStyle === "none" || Number.parseFloat(borderWidth) === 0) && outlineStyle === "none")
    found.add(`${one.className}: no line around it`);
}
return [...found];
"""
PAGES = {"today": demo.open_place("Today"), "zone": demo.open_zone, "soil": demo.open_soil}


@pytest.fixture
def visitor(built_frontend: object, make_phone: MakePhone, tmp_path: Path) -> Iterator[Chromium]:
    """A phone in the demo household."""
    server, email, password = demo.demo_server()
    phone = make_phone(server.url, tmp_path, lasting=False)
    assert isinstance(phone, Chromium)
    acts.signed_in(phone, email, password)
    yield phone
    phone.quit()
    server.close()


def test_nothing_drawn_vanishes_in_a_persons_own_colours(visitor: Chromium) -> None:
    found: dict[str, list[str]] = {}
    schemes: tuple[Literal["light", "dark"], ...] = ("light", "dark")
    for scheme in schemes:
        visitor.page.emulate_media(forced_colors="active", color_scheme=scheme)
        for name, come in PAGES.items():
            come(visitor)
            visitor.rest()
            for worn in ("light", "dusk"):  # whatever the page itself wears: the person's colours stand above
                visitor.evaluate("document.documentElement.dataset.theme = arguments[0]", worn)
                found[f"{name}, {scheme}, worn {worn}"] = visitor.evaluate(VANISHED) + visitor.evaluate(FLAT)
    assert {name: said for name, said in found.items() if said} == {}
