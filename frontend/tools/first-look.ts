/** Vite plugin: what index.html needs so that the first look comes at once and in the right theme. */
import type { HtmlTagDescriptor, Plugin, Rolldown } from "vite";

/** The screen a cold start from the home screen opens. */
const FIRST_SCREEN = "src/screens/today/index.tsx";

type Bundle = Record<string, Rolldown.OutputChunk | Rolldown.OutputAsset>;

/** File names of the first screen's chunk and of everything it imports, but for the entry itself. */
function firstScreenFiles(bundle: Bundle): string[] {
  const chunks = Object.values(bundle).filter((file) => file.type === "chunk");
  const screen = chunks.find((chunk) => chunk.facadeModuleId?.endsWith(FIRST_SCREEN));
  const found = new Set<string>();
  const add = (name: string) => {
    const chunk = chunks.find((one) => one.fileName === name);
    if (!chunk || chunk.isEntry || found.has(name)) return;
    found.add(name);
    chunk.imports.forEach(add);
  };
  if (screen) add(screen.fileName);
  return [...found];
}

export function firstLook(): Plugin {
  return {
    name: "first-look",
    transformIndexHtml: {
      order: "post",
      handler(html, { bundle }) {
        // The first paint waits for the entry script, which sets the theme: no flash of the other one.
        const blocking = html.replace('<script type="module"', '<script type="module" blocking="render"');
        // The first screen is fetched beside the entry script, not after it has run.
        const tags = firstScreenFiles(bundle ?? {}).map(
          (name): HtmlTagDescriptor => ({
            tag: "link",
            attrs: { rel: "modulepreload", crossorigin: true, href: `/${name}` },
            injectTo: "head",
          }),
        );
        return { html: blocking, tags };
      },
    },
  };
}
