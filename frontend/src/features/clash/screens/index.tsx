/** What the app's frame and Today draw of clashes; a chunk of its own, see `late.ts`. */
import "../style.css";

export { ClashCards } from "./card";
export { ClashLine } from "./line";
