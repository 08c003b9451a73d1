/** The season's plan is a later issue; until then this place says what already stands in for it. */
import { Button, Empty, Page } from "../../parts";

export default function Season() {
  return (
    <Page title="Season">
      <Empty title="No season plan yet" action={<Button href="/">See what is due today</Button>}>
        <p>
          A plan for the whole season will be drawn up here in a later version. Until then Today tells you
          which zones want mowing, and the Log keeps what was fed and when.
        </p>
      </Empty>
    </Page>
  );
}
