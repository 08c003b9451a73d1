export type { Typed } from "../format";
export { Button, type ButtonProps, type Tone } from "./button";
export { Empty, type EmptyProps } from "./empty";
export { Field, type FieldBase, type FieldProps, type Wiring } from "./field";
export { Figure, type FigureProps } from "./figure";
export {
  CheckField,
  type CheckFieldProps,
  type Choice,
  ChoiceField,
  type ChoiceFieldProps,
  NumberField,
  type NumberFieldProps,
  TextField,
  type TextFieldProps,
  type UnitChoice,
  UnitField,
  type UnitFieldProps,
} from "./inputs";
export { Notice, type NoticeKind, type NoticeProps } from "./notice";
export { Page, type PageProps } from "./page";
export { PlaceActions } from "./place-actions";
export { PlaceBar } from "./place-bar";
export { NotSaved, orSay, useSaving } from "./saving";
export { Sheet, type SheetProps } from "./sheet";
export { Standing, sayStanding } from "./standing";
export { clearToasts, showToast, type ToastOffer, Toasts } from "./toast";
export { Working, type WorkingProps, type WorkingStep } from "./working";
