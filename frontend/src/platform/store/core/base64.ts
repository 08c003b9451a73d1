const STRETCH = 0x8000;

/** Bytes in base64 (RFC 4648, section 4); in stretches, because a call takes only so many arguments. */
export function base64(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += STRETCH)
    text += String.fromCharCode(...bytes.subarray(at, at + STRETCH));
  return btoa(text);
}
