import { CloudAlert, CloudUpload } from "lucide-preact";
import type { PictureState } from "../../../platform/store/types";

export interface PrintProps {
  thumb: string | undefined;
  label: string;
  state?: PictureState | undefined;
  onClick: () => void;
}

/** A thumbnail at its place; a mark says when its picture is not on the server. */
export function Print({ thumb, label, state, onClick }: PrintProps) {
  return (
    <li>
      <button type="button" class="print" aria-label={label} onClick={onClick}>
        {thumb ? <img src={thumb} alt="" width="88" height="88" /> : <span class="print__none" />}
        {state === "waiting" ? (
          <span class="print__state">
            <CloudUpload aria-hidden="true" size={16} />
          </span>
        ) : null}
        {state === "refused" ? (
          <span class="print__state print__state--bad">
            <CloudAlert aria-hidden="true" size={16} />
          </span>
        ) : null}
      </button>
    </li>
  );
}
