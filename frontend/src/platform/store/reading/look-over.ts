/** What looks each row over as it is read: set by those who read records, so that it is done part by part. */
import type { Row } from "../types";

export const lookOver: { row: (row: Row) => void } = { row: () => undefined };
