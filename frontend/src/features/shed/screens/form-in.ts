/** What the parts of a product's and of a spreader's form are handed. */
import type { ProductEditor, SpreaderEditor } from "../model/shed";

export interface ProductProps {
  editor: ProductEditor;
}

export interface SpreaderProps {
  editor: SpreaderEditor;
}

/** The form as it stands; the page only draws its parts once it is open. */
export function formIn<F>({ form: { value } }: { form: { value: F | undefined } }): F {
  if (!value) throw new Error("the form is drawn before it is open");
  return value;
}
