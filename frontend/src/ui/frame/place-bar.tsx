import { CalendarDays, NotebookPen, Shovel, SquareDashed, Sun } from "lucide-preact";
import { Link, useLocation } from "wouter-preact";

const PLACES = [
  { path: "/", name: "Today", icon: Sun },
  { path: "/ground", name: "Ground", icon: SquareDashed },
  { path: "/shed", name: "Shed", icon: Shovel },
  { path: "/season", name: "Season", icon: CalendarDays },
  { path: "/log", name: "Log", icon: NotebookPen },
] as const;

function here(path: string, at: string): boolean {
  return path === "/" ? at === "/" : at === path || at.startsWith(`${path}/`);
}

/** The five places, under the thumb on a phone and down the side on a desk. */
export function PlaceBar() {
  const [at] = useLocation();
  return (
    <nav class="place-bar" aria-label="Places">
      <ul>
        {PLACES.map(({ path, name, icon: Icon }) => (
          <li key={path}>
            <Link href={path} aria-current={here(path, at) ? "page" : undefined}>
              <Icon aria-hidden="true" size={22} />
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
