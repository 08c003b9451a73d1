/** The shed: products and machines. */
import { Route, Switch } from "wouter-preact";
import "../style.css";
import { ShedPage } from "./list";
import { ProductPage } from "./product";
import { SpreaderPage } from "./spreader";
import { TraysPage } from "./trays";

export default function Shed() {
  return (
    <Switch>
      <Route path="/shed" component={ShedPage} />
      <Route path="/shed/product/:id">
        {({ id }) => <ProductPage key={id} id={id === "new" ? null : id} />}
      </Route>
      <Route path="/shed/spreader/:id/trays">{({ id }) => <TraysPage key={id} id={id} />}</Route>
      <Route path="/shed/spreader/:id">
        {({ id }) => <SpreaderPage key={id} id={id === "new" ? null : id} />}
      </Route>
    </Switch>
  );
}
