/** For tests only: time that passes when told to, and no tabs but this one. */
import type { FollowNews } from "../news";
import type { World } from "../world";

interface Timer {
  at: number;
  work: () => unknown;
}

export class FakeWorld implements World {
  time = Date.parse("2030-05-01T12:00:00Z");
  readonly timers: Timer[] = [];
  /** None unless a test hands some in. */
  declare news?: FollowNews;
  private wakers: (() => unknown)[] = [];

  now(): number {
    return this.time;
  }

  chance(): number {
    return 0.5;
  }

  visible(): boolean {
    return true;
  }

  after(ms: number, work: () => unknown): () => void {
    const timer = { at: this.time + ms, work };
    this.timers.push(timer);
    return () => {
      const at = this.timers.indexOf(timer);
      if (at >= 0) this.timers.splice(at, 1);
    };
  }

  onWake(work: () => unknown): () => void {
    this.wakers.push(work);
    return () => {
      this.wakers = this.wakers.filter((one) => one !== work);
    };
  }

  async lead(): Promise<() => void> {
    return () => undefined;
  }

  /** The pause until the next timer, in ms. */
  nextIn(): number | undefined {
    const [first] = this.inOrder();
    return first && first.at - this.time;
  }

  /** Lets time pass up to the next timer and runs it to its end. */
  async runNext(): Promise<void> {
    const [first] = this.inOrder();
    if (!first) throw new Error("nothing is planned");
    this.timers.splice(this.timers.indexOf(first), 1);
    this.time = Math.max(this.time, first.at);
    await first.work();
  }

  /** The page becomes visible, or the phone believes it is online. */
  async wake(): Promise<void> {
    await Promise.all(this.wakers.map((work) => work()));
  }

  private inOrder(): Timer[] {
    return [...this.timers].sort((a, b) => a.at - b.at);
  }
}
