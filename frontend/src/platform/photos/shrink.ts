/** How small a picture gets: sides and quality stepped down until it fits. Drawing is handed in. */

export interface Size {
  width: number;
  height: number;
}

/** A picture that can be drawn at any size. */
export interface Drawable extends Size {
  /** JPEG bytes of the picture at this size, bare. */
  jpeg(size: Size, quality: number): Promise<Uint8Array<ArrayBuffer>>;
}

export interface Made extends Size {
  bytes: Uint8Array<ArrayBuffer>;
}

interface Limits {
  sides: readonly number[];
  qualities: readonly number[];
  bytes: number;
}

/** A phone's photo at these sides is a few hundred kilobytes; a very busy one is coarsened rather than refused. */
export const FULL: Limits = { sides: [1600, 1200, 900], qualities: [0.85, 0.7, 0.55, 0.4], bytes: 1_200_000 };
/** Inside the entry itself (S19), so that it shows with no network on every phone. */
export const THUMB: Limits = {
  sides: [256, 192, 128, 64, 16],
  qualities: [0.7, 0.55, 0.4, 0.25],
  bytes: 8192,
};

/** Width and height within so many pixels a side, never larger than they were, never none. */
export function fitted({ width, height }: Size, most: number): Size {
  const share = Math.min(1, most / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}

/** The best that fits: quality gives way before size. Raises RangeError where nothing does. */
export async function made(picture: Drawable, limits: Limits): Promise<Made> {
  for (const side of limits.sides) {
    const size = fitted(picture, side);
    for (const quality of limits.qualities) {
      const bytes = await picture.jpeg(size, quality);
      if (bytes.length <= limits.bytes) return { ...size, bytes };
    }
  }
  throw new RangeError("The picture cannot be made small enough.");
}
