/** What a step is called: by its own title, else by its job. */
import type { Kept } from "../model/plan/book";

export const JOBS: Record<Kept["job"], string> = {
  feed: "Feed",
  pre_emergent: "Pre-emergent",
  overseed: "Overseed",
  lime: "Lime",
  aerate: "Aerate",
  soil_test: "Soil test",
  other: "Other job",
};

export const sayJob = ({ job, title }: Pick<Kept, "job" | "title">): string => title || JOBS[job];
