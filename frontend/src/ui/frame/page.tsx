import { ChevronLeft } from "lucide-preact";
import { type ComponentChildren, type ComponentType, createContext } from "preact";
import { useContext, useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { Link } from "wouter-preact";
import { Standing } from "./standing";

export interface PageProps {
  title: string;
  /** Path one step up; draws a back link. */
  back?: string | undefined;
  backLabel?: string | undefined;
  /** What stands at the right; unless told otherwise, how entries stand. null where there is nobody's book yet. */
  actions?: ComponentChildren;
  /** Two columns' worth of room on a desk. */
  wide?: boolean | undefined;
  children: ComponentChildren;
}

/** What every page says above its own content; the app tells what, since a part knows no screen. */
export const PageNotices = createContext<ComponentType | null>(null);

// The first page after opening the app keeps the browser's own focus; every later one moves it to its heading.
let opened = false;

export function Page({
  title,
  back,
  backLabel = "Back",
  actions = <Standing brief />,
  wide,
  children,
}: PageProps) {
  const Notices = useContext(PageNotices);
  const heading = useRef<HTMLHeadingElement>(null);
  // With the page itself, not after its paint: a quick thumb already typing would lose its keys to the heading.
  useLayoutEffect(() => {
    // What is drawn in advance is in no document.
    if (!heading.current?.isConnected) return;
    if (opened) {
      window.scrollTo(0, 0);
      heading.current.focus({ preventScroll: true });
    }
    opened = true;
  }, []);
  useEffect(() => {
    document.title = `${title} · Evenfall`;
  }, [title]);
  return (
    <main class={wide ? "page page--wide" : "page"} id="main">
      <header class="page__head">
        {back ? (
          <Link href={back} className="page__back" aria-label={backLabel}>
            <ChevronLeft aria-hidden="true" />
          </Link>
        ) : null}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {actions ? <div class="page__actions">{actions}</div> : null}
      </header>
      <div class="page__body">
        {Notices ? <Notices /> : null}
        {children}
      </div>
    </main>
  );
}
