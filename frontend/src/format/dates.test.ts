import { describe, expect, test } from "vitest";
import { clock, date, dateTime, daysAgo, daysBetween, isoDay, isoMoment, weekday } from "./index";

describe("dates", () => {
  test("a moment shows the wall clock of where it was written", () => {
    expect(dateTime("2025-05-14T18:05:33-04:00", "metric")).toBe("14 May 2025, 18:05");
    expect(dateTime("2025-05-14T18:05:33+09:30", "metric")).toBe("14 May 2025, 18:05");
    expect(date("2025-12-01")).toBe("1 Dec 2025");
    expect(dateTime("2025-12-01", "metric")).toBe("1 Dec 2025");
    expect(weekday("2025-05-14")).toBe("Wed 14 May");
  });

  test("a moment without a zone of its own is shown in this phone's", () => {
    const moment = new Date(2025, 4, 14, 18, 5);
    expect(dateTime(moment.toISOString(), "metric")).toBe("14 May 2025, 18:05");
  });

  test("people with US units read a clock of 12 hours, others one of 24", () => {
    const said = (time: string) => clock(`2025-05-14T${time}:33-04:00`, "us");
    expect(["00:00", "00:05", "09:30", "11:59"].map(said)).toEqual([
      "12:00 am",
      "12:05 am",
      "9:30 am",
      "11:59 am",
    ]);
    expect(["12:00", "12:05", "17:19", "23:59"].map(said)).toEqual([
      "12:00 pm",
      "12:05 pm",
      "5:19 pm",
      "11:59 pm",
    ]);
    expect(clock("2025-05-14T17:19:33-04:00", "metric")).toBe("17:19");
    expect(dateTime("2025-05-14T17:19:33+09:30", "us")).toBe("14 May 2025, 5:19 pm");
    expect(clock("2025-05-14", "us")).toBe("");
  });

  test("days are counted by the calendar, not by 24 hours", () => {
    expect(daysAgo("2025-05-14T23:50:00-04:00", "2025-05-15")).toBe("yesterday");
    expect(daysAgo("2025-05-15", "2025-05-15")).toBe("today");
    expect(daysAgo("2025-05-12", "2025-05-15")).toBe("3 days ago");
    expect(daysAgo("2025-05-16", "2025-05-15")).toBe("tomorrow");
    expect(daysAgo("2025-05-19", "2025-05-15")).toBe("in 4 days");
    expect(daysBetween("2024-02-28", "2024-03-01")).toBe(2);
  });

  test("what is no date comes back as it is", () => {
    expect(date("some day")).toBe("some day");
    expect(daysAgo("some day", "2025-05-15")).toBe("some day");
  });

  test("this moment carries its zone offset and reads back as the same instant", () => {
    const moment = new Date(2025, 10, 3, 7, 8, 9);
    expect(isoMoment(moment)).toMatch(/^2025-11-03T07:08:09[+-]\d\d:\d\d$/);
    expect(new Date(isoMoment(moment)).getTime()).toBe(moment.getTime());
    expect(isoDay(moment)).toBe("2025-11-03");
  });
});
