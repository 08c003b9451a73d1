/** The picture of a plan, made small enough to keep and kept on this phone only: it is never sent. */
import type { Drafts } from "../../../platform/store/types";

/** Bytes rather than a Blob: some browsers cannot keep a Blob in their database. */
export interface PlanPicture {
  bytes: ArrayBuffer;
  type: string;
  width: number;
  height: number;
}

export const MOST_PX = 2048;
const QUALITY = 0.85;
const TYPE = "image/jpeg";

export const pictureKey = (id: string): string => `plan-picture:${id}`;

/** Width and height with the longer side no longer than `most`. */
export function fitted(width: number, height: number, most = MOST_PX): { width: number; height: number } {
  const share = Math.min(1, most / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}

/** Reads a picture and draws it anew within 2,048 dots. Raises an error where the browser cannot read it. */
export async function shrunk(file: Blob): Promise<PlanPicture> {
  const address = URL.createObjectURL(file);
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const size = fitted(image.naturalWidth, image.naturalHeight);
    const canvas = document.createElement("canvas");
    Object.assign(canvas, size);
    const pen = canvas.getContext("2d");
    if (!pen) throw new Error("This browser cannot draw pictures.");
    // A plan on a clear ground would turn black.
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, size.width, size.height);
    pen.drawImage(image, 0, 0, size.width, size.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, TYPE, QUALITY));
    if (!blob) throw new Error("The picture could not be made smaller.");
    return { bytes: await blob.arrayBuffer(), type: TYPE, ...size };
  } finally {
    URL.revokeObjectURL(address);
  }
}

export function picture(drafts: Drafts, id: string): Promise<PlanPicture | undefined> {
  return drafts.get<PlanPicture>(pictureKey(id));
}
