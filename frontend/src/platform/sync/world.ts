/** Clock, chance and the page's own events, so that tests can hand in theirs. */
import { browserLead, type Lead } from "./leader";
import { browserNews, type FollowNews } from "./news";

export interface World {
  now(): number;
  /** 0 to 1. */
  chance(): number;
  /** Calls once after a pause; returns what cancels it. */
  after(ms: number, work: () => unknown): () => void;
  /** Calls whenever the page becomes visible or the phone thinks it is online; returns what ends that. */
  onWake(work: () => unknown): () => void;
  visible(): boolean;
  /** Holds leadership among the tabs of this book until released; the promise is there once it leads. */
  lead: Lead;
  /** The server's own news of the household, for the leading tab; without it there are the idle rounds. */
  news?: FollowNews;
}

export const browserWorld: World = {
  now: () => Date.now(),
  chance: () => Math.random(),
  after(ms, work) {
    const timer = setTimeout(work, ms);
    return () => clearTimeout(timer);
  },
  onWake(work) {
    const seen = () => document.visibilityState === "visible" && work();
    const online = () => void work();
    document.addEventListener("visibilitychange", seen);
    window.addEventListener("online", online);
    return () => {
      document.removeEventListener("visibilitychange", seen);
      window.removeEventListener("online", online);
    };
  },
  visible: () => document.visibilityState === "visible",
  lead: browserLead,
  news: browserNews,
};
