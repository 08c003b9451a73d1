"""Takes the README's pictures from the demo household: `uv run python -m tests.journeys.pictures [folder]`."""

import sys
from functools import partial
from pathlib import Path

from PIL import Image

from lawn.tooling import build
from tests.journeys import acts
from tests.journeys.browsers import chromium
from tests.journeys.demo import SCREENS, demo_server, set_light
from tests.journeys.phone import Phone
from tests.journeys.server import ROOT

FOLDER = ROOT / ".pictures"
LIGHT = (
    "today",
    "ground",
    "zone",
    "shed",
    "product",
    "outline",
    "spreader",
    "trays",
    "mower",
    "mow",
    "weather",
    "soil",
    "spread-plan",
    "spread-yard",
    "spread-finish",
    "log",
    "season",
    "shopping",
    "rules",
    "household",
)
# What lies further down a page, as a picture of its own: its name, and what stands at its top.
BELOW = {"season": ("season-sheet", ".season-sheet")}
DUSK = ("today", "soil", "spread-yard")
STILL = """
window.scrollTo({top: 0, behavior: 'instant'});
document.activeElement?.blur?.();
return document.fonts.ready.then(() => true);
"""
TO = """
const shown = document.querySelector(arguments[0]);
shown?.scrollIntoView({block: 'start', behavior: 'instant'});
return shown !== null;
"""
COLOURS = 96  # flat drawings: a palette is a fifth of the size and looks the same


def take(phone: Phone, name: str, folder: Path) -> None:
    """Take one picture at 360 × 640 and keep it small."""
    phone.evaluate(STILL)
    keep(phone, name, folder)


def keep(phone: Phone, name: str, folder: Path) -> None:
    """Take the picture of what stands on the screen."""
    path = folder / f"{name}.png"
    phone.picture(path)
    with Image.open(path) as picture:
        picture.convert("RGB").quantize(COLOURS).save(path, optimize=True)
    sys.stdout.write(f"{name}: {path.stat().st_size / 1000:.0f} kB\n")


def walk_through(phone: Phone, wanted: tuple[str, ...], folder: Path, suffix: str = "") -> None:
    """Go through the screens in order and take those wanted."""
    last = max(list(SCREENS).index(name) for name in wanted)
    for name in list(SCREENS)[: last + 1]:
        SCREENS[name](phone)
        if name in wanted:
            take(phone, name + suffix, folder)
            if name in BELOW:
                below, top = BELOW[name]
                phone.wait(partial(phone.evaluate, TO, top), f"no {below}")
                keep(phone, below + suffix, folder)


def main(folder: Path) -> None:
    """Take all of them, light and dusk."""
    build.ensure_built(print)
    folder.mkdir(parents=True, exist_ok=True)
    server, email, password = demo_server()
    try:
        with chromium() as make:
            for suffix, light, wanted in (("", "Light", LIGHT), ("-dusk", "Dusk", DUSK)):
                phone = make(server.url, folder)
                if not suffix:
                    phone.open("/enter")
                    phone.see_role("button", "Sign in")
                    take(phone, "entrance", folder)
                acts.sign_in(phone, email, password)
                set_light(phone, light)
                walk_through(phone, wanted, folder, suffix)
                phone.quit()
    finally:
        server.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
