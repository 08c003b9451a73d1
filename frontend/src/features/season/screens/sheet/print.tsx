/** The year on one printed page lying on its side: drawn once more, to the page's own measure. */
import { date } from "../../../../format";
import { named } from "../../../../records/log/named";
import { onPage } from "../../drawing/sheet-shape";
import { YearDrawing, YearLegend } from "../../drawing/year-drawing";
import type { Sheet } from "../../model/sheet/sheet";
import { drawingOf } from "./board";

/** Of a paper as wide as the year: what a page lying on its side leaves beside heading and legend. */
const HIGH = 560;

/** What is printed is told on the page itself (sheet.css); afterwards the page prints as any other again. */
export function printYear(): void {
  const page = document.documentElement;
  page.dataset["print"] = "year";
  addEventListener("afterprint", () => delete page.dataset["print"], { once: true });
  window.print();
}

export function PrintedYear({ value, year }: { value: Sheet["value"]; year: string }) {
  const drawing = drawingOf(value);
  return (
    <div class="season-print" aria-hidden="true">
      <p class="season-print__title">
        The year from {date(year)}, nitrogen in {drawing.unit}
      </p>
      <YearDrawing {...drawing} room={onPage(value, HIGH)} named />
      <YearLegend
        products={value.products.map((id) => named(id, "a product not on this phone"))}
        unit={drawing.unit}
      />
    </div>
  );
}
