/** Handing a text to the browser as a file to keep: no network takes part. */
import { isoDay } from "../format";

export function download(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = Object.assign(document.createElement("a"), { href: url, download: name });
  link.click();
  // The download has begun once the click returns; the address is let go a little later.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** A name that every file system takes: of the book, of what is in it, of the day it was made. */
export function fileName(book: string, ending: string): string {
  const name = book
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
  return `evenfall-${name || "book"}-${isoDay()}${ending}`;
}
