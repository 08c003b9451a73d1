import { Button, Empty, Page } from "../../../ui/parts";

/** In place of a mower that is not, or no longer, on this phone. */
export function NoMower(way: { back: string; backLabel: string }) {
  return (
    <Page title="Mower" {...way}>
      <Empty title="Not found" action={<Button href="/shed">Back to the shed</Button>}>
        <p>This mower is not in the shed on this phone. It may have been removed.</p>
      </Empty>
    </Page>
  );
}
