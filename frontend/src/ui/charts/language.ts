/**
 * A browser on a machine that names no language says "C", which Intl refuses; uPlot asks for it as it is read, and could
 * not be read there. Its numbers and dates are written by `format`, so any language does.
 */
export function soundLanguage(): void {
  try {
    new Intl.NumberFormat(navigator.language);
  } catch {
    Object.defineProperty(navigator, "language", { value: "en-US", configurable: true });
  }
}
