/** Vite plugin: what index.html needs so that the first look is in the right theme. */
import type { Plugin } from "vite";

export function firstLook(): Plugin {
  return {
    name: "first-look",
    transformIndexHtml: {
      order: "post",
      // The first paint waits for the entry script, which sets the theme: no flash of the other one.
      handler: (html) => html.replace('<script type="module"', '<script type="module" blocking="render"'),
    },
  };
}
