/** What the bench lays beside the app: a heading, drawn by the same library and kept by the same worker. */
import { h, render } from "preact";

const place = document.getElementById("app");
if (place) render(h("main", null, h("h1", null, "Today"), h("p", null, "Nothing else.")), place);
requestAnimationFrame(() =>
  setTimeout(() => void navigator.serviceWorker.register("/serviceworker.js", { updateViaCache: "none" })),
);
