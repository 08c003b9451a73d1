"""Each browser has what it needs to keep the app: worker, manifest, icons, and a page its policy allows."""

from typing import Any

from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone

KEPT = """return (async () => {
const worker = await navigator.serviceWorker.ready;
const manifest = await (await fetch(document.querySelector("link[rel=manifest]").href)).json();
const sizes = await Promise.all(manifest.icons.map((icon) => new Promise((resolve, reject) => {
  const image = new Image();
  image.onload = () => resolve(`${image.naturalWidth}x${image.naturalHeight}`);
  image.onerror = () => reject(new Error(`no icon at ${icon.src}`));
  image.src = icon.src;
})));
return {scope: new URL(worker.scope).pathname, sizes, named: manifest.icons.map((icon) => icon.sizes)};
})();"""
TRIED = """return (async () => {
const told = new Promise((resolve) =>
  document.addEventListener("securitypolicyviolation", (event) => resolve(event.effectiveDirective), {once: true}));
const script = document.createElement("script");
script.textContent = "window.intruder = true";
document.head.append(script);
return {directive: await told, ran: window.intruder === true};
})();"""


def test_worker_manifest_and_icons_are_there_for_installing(phone: Phone) -> None:
    phone.goto(phone.base_url)
    kept = phone.evaluate(KEPT)
    assert kept["scope"] == "/"
    assert kept["sizes"] == kept["named"]
    if isinstance(phone, Chromium):
        assert chromium_objects_to(phone) == []


def chromium_objects_to(phone: Chromium) -> list[Any]:
    """What Chromium itself names as hindering installation."""
    devtools = phone.devtools()
    assert devtools.send("Page.getAppManifest")["errors"] == []
    return list(devtools.send("Page.getInstallabilityErrors")["installabilityErrors"])


def test_a_script_slipped_into_the_page_does_not_run(phone: Phone) -> None:
    phone.goto(phone.base_url)
    tried = phone.evaluate(TRIED)
    assert tried["ran"] is False
    assert tried["directive"].startswith("script-src")


def test_the_app_draws_itself_under_its_own_policy(phone: Phone) -> None:
    complaints: list[str] = []
    if isinstance(phone, Chromium):
        phone.page.on("console", lambda message: complaints.append(message.text))
    phone.goto(phone.base_url)
    phone.evaluate(KEPT)
    phone.wait(lambda: phone.evaluate("return document.querySelector('#app').childElementCount"), "nothing is drawn")
    assert [text for text in complaints if "Content Security Policy" in text] == []
