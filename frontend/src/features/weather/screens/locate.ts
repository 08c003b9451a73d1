/** Where this phone is, asked once and at the person's tap. */

const WAIT_MS = 20_000;
const NOT_ALLOWED = "This phone does not share its location. Type the place.";
const NOT_FOUND = "This phone could not find its place. Try outdoors, or type it.";

/** The place, or a sentence why there is none. */
export function locate(
  geo: Geolocation | undefined = navigator.geolocation,
): Promise<{ lat: number; lon: number } | string> {
  if (!geo) return Promise.resolve(NOT_ALLOWED);
  return new Promise((done) => {
    geo.getCurrentPosition(
      ({ coords }) => done({ lat: coords.latitude, lon: coords.longitude }),
      ({ code }) => done(code === 1 ? NOT_ALLOWED : NOT_FOUND),
      // To 0.1° the network's own guess is enough.
      { enableHighAccuracy: false, timeout: WAIT_MS, maximumAge: 3_600_000 },
    );
  });
}
