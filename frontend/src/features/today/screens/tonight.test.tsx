import { signal } from "@preact/signals";
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Evening, ZoneMow } from "../../../records/look";
import { sayNeed } from "../../../records/mowing/said";

const made = vi.hoisted(() => ({ today: {} as Record<string, unknown> }));
vi.mock("../model", () => ({
  get today() {
    return made.today;
  },
}));
vi.mock("../../../platform/session/clock", () => ({ today: () => "2026-05-14", nowHere: () => "" }));

const { EveningLines, LacksFacts, MowFacts } = await import("./tonight");

const MOW: ZoneMow = {
  known: "forecast",
  mow_by: "2026-05-12",
  earliest: "2026-05-11",
  latest: "2026-05-16",
  state: "good",
  growing_again: null,
  looks: 3,
  due: true,
  why: "overgrown",
  taken_share: 0.38,
  cut_to_mm: 76,
  at: 0,
};

const EVENING: Evening = {
  weather: true,
  night: "2026-05-14",
  isTonight: true,
  skipped: [],
  hasNights: true,
  zones: { z: MOW },
  nights: [],
};

function given(evening: Partial<Evening> | undefined = {}) {
  made.today = { evening: signal(evening && { ...EVENING, ...evening }) };
}

const need = (mow: Partial<ZoneMow>) => sayNeed({ ...MOW, ...mow }, EVENING, "2026-05-14");
const facts = (mow: Partial<ZoneMow>) => render(<MowFacts mow={{ ...MOW, ...mow }} />).container.textContent;

afterEach(cleanup);

describe("a zone's need", () => {
  it("is said in days late, and what a cut takes, and the likely range", () => {
    given();
    expect(need({})).toBe("2 days late");
    expect(facts({})).toBe("You would take 38%. By Tue 12 May, likely Mon 11 May to Sat");
  });

  it("names the night where tonight is none", () => {
    given({ isTonight: false, night: "2026-05-16" });
    expect(facts({ mow_by: "2026-05-15" })).toBe(
      "On Sat you would take 38%. By Fri, likely Mon 11 May to Sat",
    );
  });

  it("says that it can wait, or likely can", () => {
    given();
    expect(need({ due: false, why: "can_wait" })).toBe("Can wait");
    expect(need({ due: false, why: "may_not_wait" })).toBe("Can probably wait");
  });

  it("says that grass rests, and until when", () => {
    given();
    const resting = {
      due: false,
      why: "resting",
      state: "nearly_stopped",
      growing_again: "2027-03-20",
    } as const;
    expect(need(resting)).toBe("Resting");
    expect(facts(resting)).toBe("Not growing. No mow expected before Sat 20 Mar.");
  });

  it("names what a zone lacks, and nothing where no weather is known", () => {
    given({ zones: { z: { ...MOW, known: "no_grass" } } });
    render(<LacksFacts id="z" />);
    screen.getByText("Add its grass to get a forecast.");
    cleanup();
    given({ weather: false, zones: {} });
    expect(render(<LacksFacts id="z" />).container.textContent).toBe("");
  });
});

describe("the evening", () => {
  it("says nothing before anything is known", () => {
    given(undefined);
    made.today = { evening: signal(undefined) };
    expect(render(<EveningLines />).container.textContent).toBe("");
  });

  it("says the sky of two nights, the sunset, and how old the forecast is", () => {
    given({
      nights: [
        { date: "2026-05-14", min_c: 10, max_c: 20, rain_mm: 0 },
        { date: "2026-05-15", max_c: 15, rain_mm: 25.4 },
      ],
      sunset: "2026-05-14T20:12:00-04:00",
      fetchedAt: "2026-05-12T06:00:00-04:00",
    });
    render(<EveningLines />);
    screen.getByText("Mowing night.");
    expect(screen.getByText(/^Today:/).textContent?.replace(/\u00a0/g, " ")).toBe(
      "Today: 50 to 68 °F, no rain.",
    );
    expect(screen.getByText(/^Fri:/).textContent?.replace(/\u00a0/g, " ")).toBe("Fri: 59 °F, rain 1 in.");
    screen.getByText("Sunset 8:12 pm. Forecast of Tue 12 May.");
  });

  it("says that a night is skipped for rain or frost, and which comes next", () => {
    given({ isTonight: false, night: "2026-05-17", skipped: [{ date: "2026-05-14", why: "rain" }] });
    render(<EveningLines />);
    screen.getByText("Rain expected tonight. Mow on Sun.");
  });

  it("goes by the climate and says so; by days where nothing is known, with the way to change that", () => {
    given();
    render(<EveningLines />);
    screen.getByText("No weather forecast. We go by the climate.");
    cleanup();
    given({ weather: false, zones: {}, night: null });
    render(<EveningLines />);
    screen.getByText("No forecast here. Days between mows decide.");
    expect(screen.getByRole("link", { name: "Add place and climate" }).getAttribute("href")).toBe("/weather");
  });

  it("asks for the nights where none were said", () => {
    given({ hasNights: false });
    render(<EveningLines />);
    expect(screen.queryByText("Mowing night.")).toBeNull();
    screen.getByRole("link", { name: "Set your mowing nights" });
  });
});
