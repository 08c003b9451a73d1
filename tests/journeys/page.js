// What the journeys put into a page under test: finding by role and name, and the layout check.
export * from "./finder.js";
export { faults } from "./layout.js";
