/** Said on several pages of a mower. */

/** Before a hand goes near the blade: common practice. */
export const BLADE_SAFETY =
  "Before you touch the blade: pull off the spark plug lead, or take the battery out. Your mower’s manual comes first.";

/** How a notch is measured. */
export const HOW = "Park it on a flat path. Measure from the path up to the cutting edge of the blade.";
