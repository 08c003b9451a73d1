/**
 * Vite plugin: the page begins with the script that draws what was kept (`src/app/first-frame.ts`), told where the app is.
 * The first paint waits for it, and it sets the theme: no flash of the other one. While developing there is only the app.
 */
import type { Plugin } from "vite";

const FRAME = "src/app/first-frame.ts";
const APP = /<script type="module"[^>]* src="([^"]+)"><\/script>/g;

/** Another script beside the app's would have the paint wait for the wrong one: what is shared belongs into the first. */
function theOne(html: string): RegExpMatchArray {
  const scripts = [...html.matchAll(APP)];
  if (scripts.length !== 1) throw new Error(`index.html begins with ${scripts.length} scripts, not with one`);
  return scripts[0] as RegExpMatchArray;
}

export function firstLook(): Plugin {
  let file = "";
  return {
    name: "first-look",
    apply: "build",
    buildStart() {
      file = this.emitFile({ type: "chunk", id: FRAME, name: "frame" });
    },
    generateBundle: {
      order: "pre",
      handler() {
        file = this.getFileName(file);
      },
    },
    transformIndexHtml: {
      order: "post",
      handler(html) {
        const [tag, app] = theOne(html);
        return html.replace(
          tag,
          `<script type="module" blocking="render" crossorigin src="/${file}" data-app="${app}"></script>`,
        );
      },
    },
  };
}
