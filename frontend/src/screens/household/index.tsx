import { Page } from "../../parts";

export default function Place() {
  return <Page title="Not drawn yet">This place is being built.</Page>;
}
