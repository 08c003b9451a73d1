export type { Typed } from "../../format";
export { Page, type PageProps } from "../frame/page";
export { PlaceActions } from "../frame/place-actions";
export { PlaceBar } from "../frame/place-bar";
export { Standing, sayStanding } from "../frame/standing";
export { ListSection } from "../lists/list-section";
export { Sideways } from "../lists/sideways";
export { Figure, type FigureProps } from "../working/figure";
export { Working, type WorkingProps, type WorkingStep } from "../working/working";
export { Button, type ButtonProps, type Tone } from "./button";
export { Empty, type EmptyProps } from "./empty";
export { Field, type FieldBase, type FieldProps, type Wiring } from "./field";
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
export { late, lateSheet } from "./late";
export { Notice, type NoticeKind, type NoticeProps } from "./notice";
export { NotSaved, useSaving } from "./saving";
export { Sheet, type SheetProps } from "./sheet";
export { clearToasts, showToast, type ToastOffer, Toasts } from "./toast";
export { offerUndo, orSay, orUndo } from "./undo";
