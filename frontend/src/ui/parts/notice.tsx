import { CircleCheck, Info, OctagonAlert, TriangleAlert } from "lucide-preact";
import type { ComponentChildren } from "preact";

export type NoticeKind = "info" | "warn" | "bad" | "good";

export interface NoticeProps {
  kind?: NoticeKind | undefined;
  title?: string | undefined;
  children?: ComponentChildren;
  /** Read out at once by a screen reader; for what just went wrong. */
  alert?: boolean | undefined;
}

const ICONS = { info: Info, warn: TriangleAlert, bad: OctagonAlert, good: CircleCheck };

export function Notice({ kind = "info", title, children, alert }: NoticeProps) {
  const Icon = ICONS[kind];
  return (
    <div class={`notice notice--${kind}`} role={alert ? "alert" : undefined}>
      <Icon aria-hidden="true" size={22} />
      <div class="notice__body">
        {title ? <strong>{title}</strong> : null}
        {children}
      </div>
    </div>
  );
}
