import { render } from "preact";
import { afterEach, expect, it } from "vitest";
import { Page } from "../parts";

const place = document.createElement("div");
document.body.append(place);

afterEach(() => render(null, place));

it("a later page has taken the focus by the time it stands, so that what is typed at once stays in its field", () => {
  render(<Page key="one" title="First" children={null} />, place);
  // Drawn plainly, without waiting for anything that runs after the paint.
  render(<Page key="two" title="Second" children={null} />, place);
  expect(document.activeElement).toBe(place.querySelector("h1"));
  expect(place.querySelector("h1")?.textContent).toBe("Second");
});
