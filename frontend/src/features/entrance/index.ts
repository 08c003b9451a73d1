/** The way in: begin a book, sign in, join. */
import type { Feature } from "../../records/log/registry";

const load = () => import("./screens/index");

export const feature: Feature = {
  routes: [
    { path: "/enter", load },
    { path: "/join/:token?", load },
  ],
};
