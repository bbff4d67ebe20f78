/**
 * The few best schedules of a machine problem, no two of them alike: where all have become the same, nothing new lies between any two.
 */
import type { Chance } from './chance.ts';
import type { Sequenced } from './machine-sequences.ts';

/** Two schedules are alike where less than this share of the nodes has another mode or another node before it on its machine. */
const UNALIKE = 0.2;

export class Company {
  private readonly members: Sequenced[] = [];

  /** @param most how many are kept */
  constructor(private readonly most: number) {}

  /** The least makespan of all; Infinity when there is none. */
  get makespan(): number {
    return this.members[0]?.makespan ?? Infinity;
  }

  get isFull(): boolean {
    return this.members.length === this.most;
  }

  /** Of those that are alike the best stays, of equals the latest; of all the best. */
  welcome(found: Sequenced): void {
    const { members } = this;
    const alike = members.filter((one) => isAlike(one, found));
    if (alike.some(({ makespan }) => makespan < found.makespan)) return;
    for (const one of alike) members.splice(members.indexOf(one), 1);
    members.push(found);
    members.sort((a, b) => a.makespan - b.makespan);
    if (members.length > this.most) members.pop();
  }

  /** Two different members, by chance. */
  pair(chance: Chance): readonly [Sequenced, Sequenced] {
    const { members } = this;
    const one = chance.below(members.length);
    return [members[one], members[(one + 1 + chance.below(members.length - 1)) % members.length]];
  }

  dissolve(): void {
    this.members.length = 0;
  }
}

function isAlike(a: Sequenced, b: Sequenced): boolean {
  const different = a.before.reduce(
    (sum, u, k) => (u === b.before[k] && a.mode[k] === b.mode[k] ? sum : sum + 1),
    0,
  );
  return different < UNALIKE * a.before.length;
}
