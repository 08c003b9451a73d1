"""What hands do besides tapping and typing: press a key on something drawn, and draw it along."""

import re
from typing import Any

from selenium.webdriver import ActionChains, Keys

from tests.journeys.chromium import TAP_MS, Chromium
from tests.journeys.phone import Gone, Phone
from tests.journeys.webkit import WebKit

MOVES = 8


def press(phone: Phone, element: Any, key: str) -> None:
    """Press a key, such as ArrowRight, on an element that then has the focus."""
    if isinstance(phone, Chromium):
        element.press(key, timeout=TAP_MS)
        return
    name = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", key).upper()
    element.send_keys(getattr(Keys, name))


def drag(phone: Phone, element: Any, right: float) -> None:
    """Take hold of an element in its middle, draw it so many CSS pixels to the right, and let go."""
    phone.evaluate("arguments[0].scrollIntoView({block: 'center', inline: 'center', behavior: 'instant'})", element)
    if isinstance(phone, Chromium):
        _drag_in_chromium(phone, element, right)
    elif isinstance(phone, WebKit):
        chain = ActionChains(phone.driver).click_and_hold(element)
        for _ in range(MOVES):
            chain.move_by_offset(round(right / MOVES), 0)
        chain.release().perform()


def _drag_in_chromium(phone: Chromium, element: Any, right: float) -> None:
    box = element.bounding_box()
    if box is None:
        raise Gone("what was to be dragged is not on the screen")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    mouse = phone.page.mouse
    mouse.move(x, y)
    mouse.down()
    mouse.move(x + right, y, steps=MOVES)
    mouse.up()
