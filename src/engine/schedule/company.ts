/**
 * The few best schedules found, no two of them alike: where all have become the same, nothing new lies between any two.
 */
import type { Chance } from './chance.ts';

export class Company<Schedule extends { readonly makespan: number }> {
  private readonly members: Schedule[] = [];

  /** @param most how many are kept */
  constructor(
    private readonly most: number,
    private readonly isAlike: (a: Schedule, b: Schedule) => boolean,
  ) {}

  /** The least makespan of all; Infinity when there is none. */
  get makespan(): number {
    return this.members[0]?.makespan ?? Infinity;
  }

  get size(): number {
    return this.members.length;
  }

  get isFull(): boolean {
    return this.size === this.most;
  }

  /** Of those that are alike the best stays, of equals the latest; of all the best. */
  welcome(found: Schedule): void {
    const { members } = this;
    const alike = members.filter((one) => this.isAlike(one, found));
    if (alike.some(({ makespan }) => makespan < found.makespan)) return;
    for (const one of alike) members.splice(members.indexOf(one), 1);
    members.push(found);
    members.sort((a, b) => a.makespan - b.makespan);
    if (members.length > this.most) members.pop();
  }

  /** Two different members, by chance. */
  pair(chance: Chance): readonly [Schedule, Schedule] {
    const { members } = this;
    const one = chance.below(members.length);
    return [members[one], members[(one + 1 + chance.below(members.length - 1)) % members.length]];
  }

  dissolve(): void {
    this.members.length = 0;
  }
}
