/** A plan that stands, read back as values of the model: where to begin a re-plan, and what its words refer to. */
import { yes } from '../schedule/index.ts';
import type { Assignment, Literal, Model } from '../schedule/index.ts';
import type { Ground, Implied, Option, PieceRoute } from '../routing/index.ts';
import { toMinute } from '../time/index.ts';
import type { Plan, PlanStep } from './document.ts';

/** Values for what the plan says; null where it is silent. */
interface Known {
  readonly starts: (number | null)[];
  readonly choices: (boolean | null)[];
}

const settle = (known: Known, literal: Literal, value: boolean): void => {
  known.choices[literal >> 1] = value === ((literal & 1) === 0);
};

function pick<T>(known: Known, options: readonly Option<T>[], isIt: (value: T) => boolean): void {
  // Where the plan is silent, the first option is as good as the others, and one must be taken.
  const chosen = options.find((o) => isIt(o.value)) ?? options[0];
  for (const option of options) for (const literal of option.when) settle(known, literal, option === chosen);
}

function readRoute(
  known: Known,
  ground: Ground,
  route: PieceRoute,
  steps: ReadonlyMap<string, PlanStep>,
  plan: Plan,
) {
  const { piece } = route.itinerary;
  for (const { block, start, crews } of route.blocks) {
    const first = steps.get(block.steps[0].id);
    pick(known, crews, (crew) => crew.people.map((p) => p.id).join() === first?.people.join());
    if (first) known.starts[start] = toMinute(ground.clock, first.start);
  }
  for (const { block, present } of route.blocks)
    if (block.pass) for (const made of present) settle(known, made, steps.has(block.id));
  for (const [application, recoat] of route.recoat) {
    const mixed = steps.has(`${application}-mix`);
    if (mixed) settle(known, recoat, !steps.has(`${application}-scuff`));
  }
  const bench = (step: PlanStep | undefined) => (b: { readonly id: string }) => b.id === step?.bench;
  const prepare = steps.get('prepare');
  pick(known, route.forms, (f) => f.id === prepare?.form?.id);
  pick(known, route.formBenches, bench(prepare));
  const box = plan.holds.find((h) => h.piece === piece.id && h.what === 'warm-box')?.id ?? null;
  pick(known, route.formStandings, (s) => s.room.id === prepare?.room && (s.box?.id ?? null) === box);
  pick(known, route.restBenches, bench(steps.get('rest')));
  pick(known, route.coatBenches, bench(steps.get('coat-1')));
}

/** Choices the plan does not tell are taken as yes where everything that then binds holds, else as no. */
function complete(model: Model, known: Known, implied: readonly Implied[]): Assignment {
  const starts = known.starts.map((s, i) => s ?? model.starts[i].earliest);
  const isTrue = (literal: Literal): boolean | null => {
    const value = known.choices[literal >> 1];
    return value === null ? null : value === ((literal & 1) === 0);
  };
  for (const { choice, by } of implied)
    known.choices[choice] ??= by.some((literal) => isTrue(literal) === true);
  const broken = new Set<number>();
  const blame = (when: readonly Literal[] | undefined): void => {
    const open = (when ?? []).filter((l) => isTrue(l) === null);
    if ((when ?? []).some((l) => isTrue(l) === false)) return;
    for (const literal of open) if (literal === yes(literal >> 1)) broken.add(literal >> 1);
  };
  for (const { from, to, kind, map, when } of model.lags) {
    const bound = map.at(starts[from]);
    if (kind === 'least' ? starts[to] < bound : starts[to] > bound) blame(when);
  }
  for (const { start, allowed, when } of model.openings) {
    let inside = false;
    for (let i = 0; i < allowed.length && !inside; i += 2) {
      inside = starts[start] >= allowed[i] && starts[start] < allowed[i + 1];
    }
    if (!inside) blame(when);
  }
  return { starts, choices: known.choices.map((value, choice) => value ?? !broken.has(choice)) };
}

/**
 * The same values with every bubble pass made that is not ruled out: one that the plan had to leave out may have its time
 * again, since its layer sets later than was thought. Null where there is none.
 */
export function withPassesMade(
  routes: readonly PieceRoute[],
  model: Model,
  { starts, choices }: Assignment,
): Assignment | null {
  const decided = new Set(model.clauses.flatMap(({ literals }) => (literals.length === 1 ? literals : [])));
  const made = [...choices];
  for (const { blocks } of routes)
    for (const { block, present } of blocks)
      for (const literal of block.pass ? present : [])
        if (!decided.has(literal ^ 1)) made[literal >> 1] = true;
  return made.some((value, choice) => value !== choices[choice]) ? { starts, choices: made } : null;
}

/** The values that a plan of this shop stands for; parts it does not know take their earliest value. */
export function standingAssignment(
  ground: Ground,
  routes: readonly PieceRoute[],
  model: Model,
  plan: Plan,
  implied: readonly Implied[],
): {
  readonly assignment: Assignment;
  /** True for each start that the plan knows. */
  readonly isKnown: readonly boolean[];
} {
  const known: Known = { starts: model.starts.map(() => null), choices: model.choices.map(() => null) };
  const byPiece = new Map<string, Map<string, PlanStep>>();
  for (const step of plan.steps) {
    const steps = byPiece.get(step.piece) ?? new Map<string, PlanStep>();
    byPiece.set(step.piece, steps.set(step.step, step));
  }
  for (const route of routes) {
    readRoute(known, ground, route, byPiece.get(route.itinerary.piece.id) ?? new Map(), plan);
  }
  return { assignment: complete(model, known, implied), isKnown: known.starts.map((s) => s !== null) };
}
