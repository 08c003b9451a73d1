/** The solver of seasons on the phone: HiGHS in a worker of its own. */

export { beginSolve, type Solve } from "./client";
export { keepSolver, savesData } from "./keep";
export type { Found, Outcome, Problem, Wish } from "./solving";
