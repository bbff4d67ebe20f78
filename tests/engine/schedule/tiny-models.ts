/** Random tiny models with every feature, and their answer by brute force. */
import type {
  Assignment,
  Cost,
  Level,
  Lag,
  Literal,
  Model,
  MonotoneMap,
  Opening,
  Task,
} from '../../../src/engine/schedule/index.ts';
import {
  composeMaps,
  constantLag,
  evaluate,
  nextOpen,
  tableMap,
  verify,
  workedBy,
} from '../../../src/engine/schedule/index.ts';
import { plainModel } from '../../../src/engine/schedule/plain-model.ts';

/** A small seeded generator (mulberry32). */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

function randomOpen(random: (below: number) => number, span: number): Int32Array {
  const list: number[] = [];
  let at = random(3) - 1;
  while (at < span) {
    const to = at + 1 + random(4);
    list.push(at, to);
    at = to + 1 + random(3);
  }
  return Int32Array.from(list);
}

function randomMap(random: (below: number) => number, span: number, least: number): MonotoneMap {
  const kind = random(8);
  if (kind === 0) {
    let value = least + random(3);
    const values = Int32Array.from(
      { length: span + 2 },
      (_, k) => (value = Math.max(value + random(3), least + k)),
    );
    return tableMap(values, -1, random(2) === 0 ? 'never' : 'last');
  }
  if (kind === 1)
    return composeMaps(nextOpen(randomOpen(random, span + 4)), constantLag(Math.max(0, least) + random(2)));
  if (kind === 2) return workedBy(randomOpen(random, span + 6), 1 + random(2));
  return constantLag(least + random(4));
}

/** A random model of 2 to 4 starts and 0 to 3 choices; some are infeasible. */
export function tinyModel(seed: number): Model {
  const random = randomFrom(seed);
  const n = 2 + random(3);
  const span = n === 4 ? 5 : n === 3 ? 7 : 10;
  const c = random(4);
  const reasons = 4;
  const reason = (): number | undefined => (random(4) === 0 ? undefined : random(reasons));
  const start = (): number => random(n);
  const literal = (): Literal => random(2 * c);
  const when = (): Literal[] | undefined =>
    c === 0 || random(2) === 0 ? undefined : Array.from({ length: 1 + random(2) }, literal);
  const starts = Array.from({ length: n }, (_, k) => {
    const earliest = random(3) - 1;
    return {
      name: `s${k}`,
      earliest,
      latest: Math.min(span - 1, earliest + 2 + random(span)),
      reason: reason(),
    };
  });
  const lags = Array.from({ length: random(5) }, (): Lag => {
    const from = start();
    const to = (from + 1 + random(n - 1)) % n;
    return random(3) > 0
      ? {
          from,
          to,
          kind: 'least',
          map: randomMap(random, span, random(4) - 1),
          when: when(),
          reason: reason(),
        }
      : { from, to, kind: 'most', map: randomMap(random, span, random(4)), when: when(), reason: reason() };
  });
  const openings = Array.from({ length: random(3) }, (): Opening => ({
    start: start(),
    allowed: randomOpen(random, span),
    when: when(),
    reason: reason(),
  }));
  const clauses = Array.from({ length: c === 0 ? 0 : random(3) }, () => ({
    literals: Array.from({ length: 1 + random(3) }, literal),
    reason: reason(),
  }));
  const task = (): Task => {
    const from = start();
    const to = random(3) === 0 ? start() : from;
    return {
      from,
      to,
      until: randomMap(random, span, 1),
      amount: 1 + random(2),
      when: when(),
      reason: reason(),
    };
  };
  const resources = Array.from({ length: random(3) }, (_, k) => {
    const capacity = [random(2) - 1, 1 + random(3)];
    let at = 0;
    while (random(2) === 0) capacity.push((at += 1 + random(4)), random(4));
    return {
      name: `r${k}`,
      capacity: Int32Array.from(capacity),
      tasks: Array.from({ length: 1 + random(4) }, task),
    };
  });
  const exclusions = Array.from({ length: random(3) === 0 ? 1 : 0 }, () => ({
    name: 'dust',
    one: Array.from({ length: 1 + random(2) }, task),
    other: Array.from({ length: 1 + random(2) }, task),
  }));
  const cost = (): Cost => {
    const kind = random(c > 0 ? 4 : 3);
    const weight = 1 + random(4);
    if (kind === 0) return { kind: 'late', start: start(), after: random(5) - 1, weight };
    if (kind === 1) return { kind: 'early', start: start(), before: random(8), weight };
    if (kind === 3) return { kind: 'choice', when: literal(), weight };
    const edges: number[] = [random(3) - 1];
    for (let k = 0; k < 3; k++) edges.push(edges[k] + 1 + random(4));
    const list = Array.from({ length: 1 + random(3) }, start);
    return {
      kind: 'buckets',
      starts: list,
      when: random(2) === 0 ? undefined : list.map(() => when() ?? []),
      edges: Int32Array.from(edges),
      weight,
    };
  };
  const levels = Array.from({ length: random(4) }, (_, k): Level => ({
    name: `level ${k}`,
    costs: Array.from({ length: 1 + random(3) }, cost),
  }));
  return {
    starts,
    choices: Array.from({ length: c }, (_, k) => `c${k}`),
    lags,
    openings,
    clauses,
    resources,
    exclusions,
    levels,
    reasons,
  };
}

/** Machines, each of which takes the starts that need it for times of their own, and two starts to be early. */
export function tinyMachines(seed: number): Model {
  const random = randomFrom(seed);
  const n = 2 + random(2);
  const resources = Array.from({ length: 2 + random(2) }, (_, r) => {
    const first = random(n);
    const task = (from: number): Task => ({ from, to: from, until: constantLag(1 + random(4)), amount: 1 });
    return {
      name: `r${r}`,
      capacity: Int32Array.of(0, 1),
      tasks: Array.from({ length: 2 + random(n - 1) }, (_, k) => task((first + k) % n)),
    };
  });
  const early = (): Cost => ({ kind: 'late', start: random(n), after: 0, weight: 1 + random(2) });
  const starts = Array.from({ length: n }, (_, k) => ({ name: `s${k}`, earliest: random(3), latest: 9 }));
  return { ...plainModel(starts, [], resources), levels: [{ name: 'early', costs: [early(), early()] }] };
}

/** The best values, level by level; null when no assignment keeps the rules. */
export function bruteForce(model: Model): number[] | null {
  let best: number[] | null = null;
  for (const values of everyAnswer(model)) if (best === null || isLess(values, best)) best = values;
  return best;
}

/** The values of the levels of each assignment that keeps the rules. */
export function* everyAnswer(model: Model): Generator<number[]> {
  const starts = model.starts.map((start) => start.earliest);
  if (model.starts.some((start) => start.earliest > start.latest)) return;
  for (;;) {
    for (let mask = 0; mask < 1 << model.choices.length; mask++) {
      const assignment: Assignment = {
        starts,
        choices: model.choices.map((_, k) => ((mask >> k) & 1) === 1),
      };
      if (verify(model, assignment).length > 0) continue;
      yield model.levels.map((level) => evaluate(level, assignment));
    }
    let k = 0;
    while (k < starts.length && starts[k] === model.starts[k].latest) starts[k] = model.starts[k++].earliest;
    if (k === starts.length) return;
    starts[k]++;
  }
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] < b[k];
  return false;
}

/** The model without the parts of the reasons outside the set; a start whose reason is left out may be anywhere in the model's span. */
export function onlyReasons(model: Model, kept: ReadonlySet<number>): Model {
  const stays = (part: { readonly reason?: number }): boolean =>
    part.reason === undefined || kept.has(part.reason);
  const earliest = Math.min(...model.starts.map((start) => start.earliest));
  const latest = Math.max(...model.starts.map((start) => start.latest));
  return {
    ...model,
    starts: model.starts.map((start) => (stays(start) ? start : { ...start, earliest, latest })),
    lags: model.lags.filter(stays),
    openings: model.openings.filter(stays),
    clauses: model.clauses.filter(stays),
    resources: model.resources.map((resource) => ({ ...resource, tasks: resource.tasks.filter(stays) })),
    exclusions: model.exclusions.map((exclusion) => ({
      ...exclusion,
      one: exclusion.one.filter(stays),
      other: exclusion.other.filter(stays),
    })),
  };
}
