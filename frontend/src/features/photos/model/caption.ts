/** The words under a photo. */
import { createSchemaForm, type FormWords, type SchemaParts } from "../../../forms/schema-form";
import type { Photo, PhotosModel } from "./photos";

const WORDS: FormWords = {
  title: "Caption",
  save: "Save the caption",
  saved: "Caption saved.",
  fields: { caption: {} },
};

export const captionForm = (parts: SchemaParts, photos: PhotosModel, photo: Photo) =>
  createSchemaForm(parts, {
    key: `caption-form:${photo.id}`,
    t: "photo",
    group: "caption",
    words: WORDS,
    from: () => ({ caption: photo.caption }),
    amends: true,
    write: (value) => photos.setCaption(photo, String(value["caption"] ?? "")),
  });
