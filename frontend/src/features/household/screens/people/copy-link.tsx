/** Copies a link that is shown only once, and says whether that worked. */
import { useState } from "preact/hooks";
import { Button } from "../../../../ui/parts";

type Handed = "" | "copied" | "not_copied";
const SAYS: Record<Handed, string> = {
  "": "",
  copied: "Copied.",
  not_copied: "Not copied. Press and hold the link to copy it.",
};

export function CopyLink({ link }: { link: string }) {
  const [handed, setHanded] = useState<Handed>("");
  const copy = () =>
    navigator.clipboard.writeText(link).then(
      () => setHanded("copied"),
      () => setHanded("not_copied"),
    );
  return (
    <>
      <Button onClick={copy}>Copy the link</Button>
      <span role="status">{SAYS[handed]}</span>
    </>
  );
}
