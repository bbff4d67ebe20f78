/** What the parts that are laid down have taken from the channels, so that it can be given back, and who meets whom there. */
import type { Channel } from './channel.ts';
import type { Time } from './model.ts';
import type { Use } from './uses.ts';

interface Taken {
  readonly channel: Channel;
  readonly from: Time;
  readonly until: Time;
  readonly amount: number;
}

export class LaidDown {
  private readonly taken: readonly Taken[][];

  /** @param least the time of each start */
  constructor(
    parts: number,
    private readonly least: Int32Array,
  ) {
    this.taken = Array.from({ length: parts }, () => []);
  }

  /** Takes a use's share of its channel, at the present times. */
  take(part: number, { task, takes, amount }: Use): void {
    const from = this.least[task.from];
    const until = task.until.at(this.least[task.to]);
    if (from >= until) return;
    takes.take(from, until, amount);
    this.taken[part].push({ channel: takes, from, until, amount });
  }

  /** Gives back all that a part has taken. */
  release(part: number): void {
    for (const { channel, from, until, amount } of this.taken[part]) channel.take(from, until, -amount);
    this.taken[part].length = 0;
  }

  /** The other parts with something on one of the channels in the span of time given. */
  meeting(part: number, channels: ReadonlySet<Channel>, from: Time, until: Time): number[] {
    const found: number[] = [];
    this.taken.forEach((list, other) => {
      if (other !== part && list.some((t) => channels.has(t.channel) && t.from < until && from < t.until))
        found.push(other);
    });
    return found;
  }
}
