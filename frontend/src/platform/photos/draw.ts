/** Decoding and drawing pictures with what the browser has. */
import { bare } from "./jpeg";
import type { Drawable, Size } from "./shrink";

interface Decoded extends Size {
  source: CanvasImageSource;
  close(): void;
}

/** Runs `work` on the decoded picture, upright as its camera meant it. Raises an error where it cannot be read. */
export async function withPicture<V>(file: Blob, work: (picture: Drawable) => Promise<V>): Promise<V> {
  const decoded = await decode(file);
  try {
    const { width, height } = decoded;
    return await work({ width, height, jpeg: (size, quality) => drawn(decoded, size, quality) });
  } finally {
    decoded.close();
  }
}

async function decode(file: Blob): Promise<Decoded> {
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
    return { source: bitmap, width: bitmap.width, height: bitmap.height, close: () => bitmap.close() };
  } catch {
    // Some browsers read more kinds of picture in an <img> than here.
    return decodeByImage(file);
  }
}

async function decodeByImage(file: Blob): Promise<Decoded> {
  const address = URL.createObjectURL(file);
  const image = new Image();
  image.src = address;
  const close = () => URL.revokeObjectURL(address);
  try {
    await image.decode();
  } catch (error) {
    close();
    throw error;
  }
  return { source: image, width: image.naturalWidth, height: image.naturalHeight, close };
}

async function drawn({ source }: Decoded, size: Size, quality: number): Promise<Uint8Array<ArrayBuffer>> {
  const canvas = document.createElement("canvas");
  Object.assign(canvas, size);
  const pen = canvas.getContext("2d");
  if (!pen) throw new Error("This browser cannot draw pictures.");
  // What was see-through would turn black.
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, size.width, size.height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(source, 0, 0, size.width, size.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", quality));
  if (!blob) throw new Error("The picture could not be made smaller.");
  return bare(new Uint8Array(await blob.arrayBuffer()));
}
