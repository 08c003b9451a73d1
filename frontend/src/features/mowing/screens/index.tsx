/** A mower's own pages. */
import { Route, Switch } from "wouter-preact";
import "../style.css";
import { MowerPage } from "./mower";
import { MowerEdit } from "./mower-edit";

export default function MowerPages() {
  return (
    <Switch>
      <Route path="/shed/mower/new">
        <MowerEdit key="new" id={null} />
      </Route>
      <Route path="/shed/mower/:id/edit">{({ id }) => <MowerEdit key={id} id={id} />}</Route>
      <Route path="/shed/mower/:id">{({ id }) => <MowerPage key={id} id={id} />}</Route>
    </Switch>
  );
}
