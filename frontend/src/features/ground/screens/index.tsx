/** Ground: the zones, measured and described. */
import { Route, Switch } from "wouter-preact";
import { EditZone } from "./edit";
import { GroundList } from "./list";
import { OutlinePage } from "./outline-page";
import { ZonePage } from "./zone";

export default function Ground() {
  return (
    <Switch>
      <Route path="/ground" component={GroundList} />
      <Route path="/ground/new">
        <EditZone id={null} />
      </Route>
      <Route path="/ground/:id/edit">{({ id }) => <EditZone key={id} id={id} />}</Route>
      <Route path="/ground/:id/outline">{({ id }) => <OutlinePage key={id} id={id} />}</Route>
      <Route path="/ground/:id">{({ id }) => <ZonePage key={id} id={id} />}</Route>
    </Switch>
  );
}
