import { TriangleAlert } from "lucide-preact";
import { Link, useLocation } from "wouter-preact";
import { clashes } from "../model/clashing";
import { sayShortly } from "./text";

/**
 * Above the bar of places, in every place, until somebody settles it: fixed, so that nothing typed or about to be
 * tapped moves when it comes. Today shows the whole cards in its stead.
 */
export function ClashLine() {
  const [at] = useLocation();
  const says = sayShortly(clashes.open.value);
  return (
    <>
      {/* Stands here from place to place, so that it is read out once, when it comes. */}
      <div class="sr" role="alert">
        {says ? `Warning: ${says}` : ""}
      </div>
      {says && at !== "/" ? (
        <aside aria-label="Warning">
          <Link href="/" className="clash-line">
            <TriangleAlert aria-hidden="true" size={22} />
            <span>
              <strong>{says}</strong> <span class="clash-line__more">See Today</span>
            </span>
          </Link>
        </aside>
      ) : null}
    </>
  );
}
