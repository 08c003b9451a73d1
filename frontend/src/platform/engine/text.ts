/** The text in which arguments go to the engine, written once for all who need it: of ten years of log it is long. */
const written = new WeakMap<object, string>();

/** Of arguments that are changed by nobody from now on. */
export function textOf(args: object): string {
  const text = written.get(args) ?? JSON.stringify(args);
  written.set(args, text);
  return text;
}
