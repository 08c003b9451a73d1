/** The household: people, phones, where entries stand, this phone's choices, and the way out. */
import { ChevronRight } from "lucide-preact";
import { Link, Route, Switch } from "wouter-preact";
import { former } from "../../../platform/session/session";
import { Page, Standing } from "../../../ui/parts";
import { household } from "../model";
import { Cautions } from "./cautions";
import { Choices } from "./choices";
import { EntriesPage, sayWhere } from "./entries";
import { Conflicts } from "./entries/conflicts";
import { MendPage } from "./entries/correct";
import { Export } from "./entries/export";
import { Installing } from "./entries/installing";
import { PendingReviewPage } from "./entries/pending-review";
import { CalendarPage } from "./people/calendar";
import { Former } from "./people/former";
import { Invite } from "./people/invite";
import { Leave } from "./people/leave";
import { MemberPage } from "./people/member";
import { Members } from "./people/members";
import { PhonesPage } from "./people/phones";
import { SignInsPage } from "./people/sign-ins";
import { Rhythm } from "./rhythm";

/** The household's other pages by their place in the address: what leads to one is held to these names. */
const PAGES = {
  calendar: CalendarPage,
  entries: EntriesPage,
  phones: PhonesPage,
  "pending-review": PendingReviewPage,
  "sign-ins": SignInsPage,
};

export default function Household() {
  return (
    <Switch>
      <Route path="/household" component={HouseholdPage} />
      <Route path="/household/entries/:op">{({ op }) => <MendPage key={op} op={op} />}</Route>
      <Route path="/household/members/:id">{({ id }) => <MemberPage key={id} id={id} />}</Route>
      {Object.entries(PAGES).map(([name, page]) => (
        <Route key={name} path={`/household/${name}`} component={page} />
      ))}
    </Switch>
  );
}

function HouseholdPage() {
  return (
    <Page
      title={household.household.value.name || "Household"}
      back="/"
      backLabel="Back to Today"
      actions={<Standing />}
      wide
    >
      <Former />
      <Conflicts />
      <div class="columns">
        <div class="stack stack--wide">
          <Pages />
          <Members />
          <Invite />
        </div>
        <div class="stack stack--wide">
          <Rhythm />
          <Choices />
          <Installing />
          <Export />
          <Cautions />
          <Leave />
        </div>
      </div>
    </Page>
  );
}

/** The household's other pages, each with what it would say in brief. */
function Pages() {
  return (
    <ul class="lines">
      <Way to="entries" name="Saved and sent">
        {sayWhere(household.standing.value, former.value)}
      </Way>
      <li>
        <Link href="/weather" className="line">
          <span class="line__main">
            <span class="line__title">Place and weather</span>
            <span class="line__facts">Climate, forecast, your own days</span>
          </span>
          <ChevronRight aria-hidden="true" size={20} />
        </Link>
      </li>
      <li>
        <Link href="/season/rules" className="line">
          <span class="line__main">
            <span class="line__title">Place and rules</span>
            <span class="line__facts">Limits, closed dates, your own rules</span>
          </span>
          <ChevronRight aria-hidden="true" size={20} />
        </Link>
      </li>
      <Way to="phones" name="Phones">
        See phones, sign out a lost one
      </Way>
      <Way to="calendar" name="Calendar link">
        See your season’s steps in your calendar
      </Way>
      {household.keeper.value ? (
        <Way to="pending-review" name="Entries to review">
          Entries from former members to review
        </Way>
      ) : null}
      <Way to="sign-ins" name="Your sign-ins">
        Was this you?
      </Way>
    </ul>
  );
}

function Way({ to, name, children }: { to: keyof typeof PAGES; name: string; children: string }) {
  return (
    <li>
      <Link href={`/household/${to}`} className="line">
        <span class="line__main">
          <span class="line__title">{name}</span>
          <span class="line__facts">{children}</span>
        </span>
        <ChevronRight aria-hidden="true" size={20} />
      </Link>
    </li>
  );
}
