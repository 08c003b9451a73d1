/** Place and weather: where the yard is, what its year is like, the forecast, and days of its own. */
import { Route, Switch } from "wouter-preact";
import { Page } from "../../../ui/parts";
import { ClimatePart } from "./climate-part";
import { ForecastPart } from "./forecast-part";
import { ImportPage } from "./import-page";
import { OwnPart } from "./own-part";
import { PlacePart } from "./place-part";
import { SoilPage } from "./soil-page";
import { SoilPart } from "./soil-part";

export default function Weather() {
  return (
    <Switch>
      <Route path="/weather/import" component={ImportPage} />
      <Route path="/weather/soil" component={SoilPage} />
      <Route path="/weather" component={WeatherPage} />
    </Switch>
  );
}

function WeatherPage() {
  return (
    <Page title="Place and weather" back="/household" backLabel="Back to Household" wide>
      <div class="columns">
        <div class="stack stack--wide">
          <PlacePart />
          <ClimatePart />
        </div>
        <div class="stack stack--wide">
          <ForecastPart />
          <SoilPart />
          <OwnPart />
        </div>
      </div>
    </Page>
  );
}
