"""The three recipes: the files of a new engine call, kind of log entry or feature, laid out for a person to fill in."""

import re
from collections.abc import Callable
from pathlib import Path

from lawn.engine.door import TOPICS

NAME = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*\Z")


class RecipeError(Exception):
    """What keeps it from being laid out."""


def call(root: Path, name: str) -> list[Path]:
    """Lay out an engine call such as mowing.height in the topic that has such calls, as door.py lists it."""
    before, _, verb = name.partition(".")
    _named(before)
    _named(verb)
    topic = TOPICS.get(before, (before,))[0]
    folder = root / "lawn/engine" / topic
    if not (folder / "calls.py").is_file():
        raise RecipeError(f"There is no topic {topic} in lawn/engine: make its folder, and list it in door.py.")
    module = _write(folder / f"{verb}.py", _CALL.format(topic=topic, verb=verb))
    calls = folder / "calls.py"
    _list(calls, rf"^from lawn\.engine\.{topic} import (?P<names>.+)$", verb)
    _add(calls, r"^(CALLS: .*= \{)$", rf'\g<1>\n    "{before}.{verb}": ({verb}.{verb}, ("area_m2",), ()),')
    return [module, calls]


def kind(root: Path, name: str, feature: str = "log") -> list[Path]:
    """Lay out a kind of log entry in the feature that brings it."""
    _named(name)
    place = root / "frontend/src/features" / feature
    if not place.is_dir():
        raise RecipeError(f"There is no feature {feature}: lay that out first.")
    said = {"title": _title(name), "lower": name.replace("_", " "), "camel": _camel(name)}
    contract = _write(root / f"fixtures/kinds/entry/{name}.json", _CONTRACT)
    words = _write(place / f"entries/{_file(name)}.ts", _WORDS.format(**said))
    kinds = place / "kinds.ts"
    if not kinds.exists():
        raise RecipeError(f"{feature} brings no kind yet: give it a kinds.ts and name it in app/kinds.ts.")
    row = _KIND.format(name=name, file=_file(name), **said)
    _add(kinds, r"^\];\n\Z", f"{row}];\n")
    known = root / "lawn/engine/log/entries.py"
    _add(known, r"^(KINDS = \((?:\n    .*)*)\n\)$", rf'\g<1>\n    "{name}",\n)')
    return [contract, words, kinds, known]


def feature(root: Path, name: str) -> list[Path]:
    """Lay out a feature with a place of its own."""
    _named(name)
    place = root / "frontend/src/features" / name
    if place.exists():
        raise RecipeError(f"There is a feature {name} already.")
    made = _write(place / "index.ts", _FEATURE.format(name=name))
    screen = _write(place / "screens/index.tsx", _SCREEN.format(title=_title(name), camel=_title(_camel(name))))
    app = root / "frontend/src/app/features.ts"
    line = f'import {{ feature as {_camel(name)} }} from "../features/{name}";\n'
    _add(app, r"^(import \{ registerFeatures \})", rf"{line}\1")
    _sort(app, r"(?:^import \{ feature as .*\n)+")
    _add(app, r"\]\);\n\Z", f", {_camel(name)}]);\n")
    return [made, screen, app]


RECIPES: dict[str, Callable[..., list[Path]]] = {"call": call, "kind": kind, "feature": feature}


def _named(name: str) -> None:
    if not NAME.match(name):
        raise RecipeError(f"“{name}” is no name: allowed are small letters, digits and single underscores.")


def _write(path: Path, text: str) -> Path:
    if path.exists():
        raise RecipeError(f"{path.name} is there already.")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def _add(path: Path, pattern: str, by: str) -> None:
    text, count = re.subn(pattern, by, path.read_text(encoding="utf-8"), count=1, flags=re.M)
    if count != 1:
        raise RecipeError(f"{path.name} has no place for it: {pattern}")
    path.write_text(text, encoding="utf-8")


def _list(path: Path, pattern: str, name: str) -> None:
    """Put a name into a line of names, in their order."""
    text = path.read_text(encoding="utf-8")
    found = re.search(pattern, text, flags=re.M)
    if found is None:
        raise RecipeError(f"{path.name} has no place for it: {pattern}")
    start, end = found.span("names")
    names = ", ".join(sorted([*found["names"].split(", "), name]))
    path.write_text(text[:start] + names + text[end:], encoding="utf-8")


def _sort(path: Path, block: str) -> None:
    text = path.read_text(encoding="utf-8")
    path.write_text(
        re.sub(block, lambda found: "".join(sorted(found[0].splitlines(keepends=True))), text, count=1, flags=re.M),
        encoding="utf-8",
    )


def _title(name: str) -> str:
    words = name.replace("_", " ")
    return words[0].upper() + words[1:]


def _camel(name: str) -> str:
    first, *rest = name.split("_")
    return first + "".join(word.capitalize() for word in rest)


def _file(name: str) -> str:
    return name.replace("_", "-")


_CALL = '''"""What this is about."""

from lawn.engine.core.numeric import number
from lawn.engine.core.working import COMMON, step


def {verb}(*, area_m2: float) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What it works out.

    Args:
        area_m2: ground it is asked for [m2; 0.5 to 100000]
    Returns:
        ground_m2: what it works out [m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: common practice
    Checked: nothing yet: an outside example belongs here
    """
    ground_m2 = number("area_m2", area_m2)
    numbers: dict[str, object] = {{"area_m2": area_m2}}
    formula = "the ground asked for"
    ground = step(what="Ground", formula=formula, numbers=numbers, result=ground_m2, unit="m2", source=COMMON)
    return {{"ground_m2": ground_m2}}, [ground]
'''

_CONTRACT = """{
  "remark": {"type": "text", "max": 400, "label": "Remark"}
}
"""

_WORDS = """/** {title} in words. */
import {{ sayZones }} from "../../../records/log/named";
import type {{ Words }} from "../../../records/log/registry";
import {{ joined, words }} from "../../../records/log/words";

export const {camel}: Words = {{
  brief: ({{ body, zoneIds }}) => joined([sayZones(zoneIds), body["remark"]]),
  facts: ({{ body }}) => words(body["remark"], "Remark"),
  form: {{
    title: "Add {lower}",
    save: "Save",
    saved: "Saved in the log.",
    fields: {{
      remark: {{ missing: "Enter a few words." }},
      zone_ids: {{ label: "Zones (leave blank for the whole yard)" }},
      occurred_at: {{ label: "When" }},
    }},
  }},
}};
"""

_KIND = """  {{
    kind: "{name}",
    label: "{title}",
    words: () => import("./entries/{file}").then(({{ {camel} }}) => {camel}),
    add: {{ button: "Add {lower}" }},
  }},
"""

_FEATURE = """/** What the rest of the app knows of this feature: its place. */
import type {{ Feature }} from "../../records/log/registry";

export const feature: Feature = {{
  routes: [{{ path: "/{name}/*?", load: () => import("./screens/index") }}],
}};
"""

_SCREEN = """/** {title}: what a person comes here for. */
import {{ Button, Empty, Page, PlaceActions }} from "../../../ui/parts";

export default function {camel}() {{
  return (
    <Page title="{title}" actions={{<PlaceActions />}}>
      <Empty title="Nothing here yet" action={{<Button href="/">Go to Today</Button>}} />
    </Page>
  );
}}
"""
