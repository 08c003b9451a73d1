/** Photos of entries and zones, for the pages that show or take them. */
export { PhotoDraftField, usePhotoDraft } from "./screens/draft";
export { Photos } from "./screens/strip";
