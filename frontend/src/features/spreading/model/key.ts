/** Where a job under way is kept among the drafts; Today looks here. */
export const SPREAD_KEY = "spread";
