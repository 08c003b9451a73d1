/** The log: what was done, by whom, when. */
import { Route, Switch } from "wouter-preact";
import { EntryPage } from "./detail";
import { LogPage } from "./list";

export default function Log() {
  return (
    <Switch>
      <Route path="/log" component={LogPage} />
      <Route path="/log/:id">{({ id }) => <EntryPage key={id} id={id} />}</Route>
    </Switch>
  );
}
