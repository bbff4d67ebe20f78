/** The steps of one piece as the plan document tells them: hands-on ones from the blocks, waiting ones between them. */
import { NEVER } from '../schedule/index.ts';
import type { Assignment } from '../schedule/index.ts';
import { actualsOf, placedCures } from '../routing/index.ts';
import type { Ground, RoutedBlock } from '../routing/index.ts';
import { toIso, toMinute } from '../time/index.ts';
import type { PlanStep } from './document.ts';
import { allHold } from './reading.ts';
import type { PieceReading } from './reading.ts';

type Place = Pick<PlanStep, 'room' | 'form' | 'bench' | 'warmBox' | 'tool'>;

/** The form's unit is settled once all pieces are known; see `holds.ts`. */
export type UnitOf = (piece: string) => number;

const inFormKinds = new Set(['prepare', 'mix', 'seal', 'pour', 'bubbles', 'scuff', 'demold', 'turnaround']);

/** Where a step of this reading happens. */
function placeOf(ground: Ground, reading: PieceReading, routed: RoutedBlock, unit: UnitOf): Place {
  const { block } = routed;
  const { form, formBench, formStanding, coatBench, coatStanding, restBench } = reading;
  const isCoat = block.id.startsWith('coat-') || block.kind === 'flip';
  if (isCoat) return { room: coatStanding?.room.id ?? '', bench: coatBench?.id };
  const room = formStanding?.room.id ?? '';
  if (inFormKinds.has(block.kind)) {
    return {
      room,
      form: form && { id: form.id, unit: unit(reading.route.itinerary.piece.id) },
      bench: formBench?.id,
    };
  }
  const tool = ground.shop.tools.find((t) => t.id === block.tool);
  if (tool) return { room: tool.room, tool: tool.id };
  if (block.kind === 'finish' || block.kind === 'ready') return { room: coatStanding?.room.id ?? room };
  return { room, bench: block.kind === 'flatten' || block.kind === 'sand' ? undefined : restBench?.id };
}

/** The window of the application below, for one poured over it; none where it never opens, found hard before or stalled in the cold. */
function windowOf(ground: Ground, answer: Assignment, reading: PieceReading, routed: RoutedBlock) {
  const over = routed.block.application?.over;
  if (!over) return undefined;
  const { route } = reading;
  const under = route.blocks.find((b) => b.block.application?.id === over);
  const placed = under && placedCures(ground, route, under).find((p) => allHold(answer, p.when));
  if (!under || !placed) return undefined;
  const poured = answer.starts[under.start];
  const minute = (name: 'opens' | 'closes'): number => {
    const at = placed.milestone(name).at(poured);
    return at >= NEVER ? ground.horizon : at;
  };
  const [opens, closes] = [minute('opens'), minute('closes')];
  if (opens > closes) return undefined;
  return { of: over, opens: toIso(ground.clock, opens), closes: toIso(ground.clock, closes) };
}

/** Every hands-on step of the piece, and `ready`. */
function attendedSteps(ground: Ground, answer: Assignment, reading: PieceReading, unit: UnitOf): PlanStep[] {
  const { route, times } = reading;
  const { piece } = route.itinerary;
  const iso = (minute: number): string => toIso(ground.clock, minute);
  return route.blocks.flatMap((routed) => {
    const { block, past } = routed;
    const when = times.get(block.id);
    if (!when) return [];
    const place = placeOf(ground, reading, routed, unit);
    const known = actualsOf(piece, block);
    const pinned = piece.pins.some((p) => p.at !== undefined && block.steps.some((s) => s.id === p.step));
    const starts: number[] = [];
    let offset = 0;
    for (const { id, minutes } of block.steps) {
      const recorded = known.find((a) => a.step === id);
      starts.push(
        recorded ? toMinute(ground.clock, recorded.started) : Math.min(when.start + offset, when.end),
      );
      offset += minutes;
    }
    return block.steps.map((step, i): PlanStep => {
      const recorded = known.find((a) => a.step === step.id);
      const start = starts[i];
      const isLast = i === block.steps.length - 1;
      const foreseen = isLast ? when.end : starts[i + 1];
      const end =
        !isLast && recorded?.ended !== undefined ? toMinute(ground.clock, recorded.ended) : foreseen;
      const done =
        past !== null && (past.state === 'done' || recorded?.ended !== undefined || end <= ground.now);
      // What is written down has begun, whatever the clock of this device says.
      const begun = past !== null && (recorded !== undefined || start <= ground.now);
      const { application } = block;
      return {
        piece: piece.id,
        step: step.id,
        kind: step.kind,
        start: iso(start),
        end: iso(Math.max(start, end)),
        handsOnMinutes:
          block.hands === 0 ? 0 : block.split && !past ? block.minutes : Math.max(0, end - start),
        people: (reading.crew.get(block.id)?.people ?? []).map((p) => p.id),
        ...place,
        ...(isLast && application?.over
          ? {
              window: windowOf(ground, answer, reading, routed),
              way: times.has(`${application.id}-scuff`) ? ('scuff' as const) : ('recoat' as const),
            }
          : {}),
        ...(application
          ? { resin: application.resin, batchMl: Math.round(application.batchMl * 10) / 10 }
          : {}),
        state: done ? 'done' : begun ? 'begun' : 'planned',
        pinned,
      };
    });
  });
}

/** The unattended stretches between them; those without length are left out. */
function waitingSteps(ground: Ground, reading: PieceReading, unit: UnitOf): PlanStep[] {
  const { route, times, form, formBench, formStanding, restBench, coatBench, coatStanding } = reading;
  const { piece } = route.itinerary;
  const out: PlanStep[] = [];
  const add = (step: string, kind: 'set' | 'cure' | 'rest', from: number, to: number, place: Place): void => {
    if (to <= from) return;
    out.push({
      piece: piece.id,
      step,
      kind,
      start: toIso(ground.clock, from),
      end: toIso(ground.clock, to),
      handsOnMinutes: 0,
      people: [],
      ...place,
      state: to <= ground.now ? 'done' : from <= ground.now ? 'begun' : 'planned',
      pinned: false,
    });
  };
  const at = (id: string) => times.get(id) ?? { start: 0, begins: 0, end: 0 };
  const inForm: Place = {
    room: formStanding?.room.id ?? '',
    form: form && { id: form.id, unit: unit(piece.id) },
    ...(formStanding?.box ? { warmBox: formStanding.box.id } : { bench: formBench?.id }),
  };
  const onBench: Place = { room: coatStanding?.room.id ?? '', bench: coatBench?.id };
  const applied = route.blocks.filter((b) => b.block.application);
  applied.forEach(({ block }, i) => {
    const next = applied[i + 1];
    const { application } = block;
    if (!next || !application || next.block.application?.stay !== application.stay) return;
    const place = application.stay === 'coats' ? onBench : inForm;
    add(`${application.id}-set`, 'set', at(block.id).end, at(next.block.id).begins, {
      ...place,
      ...(application.id === 'seal' ? { warmBox: undefined, bench: formBench?.id } : {}),
    });
  });
  const layers = applied.filter((b) => b.block.application?.stay === 'form');
  add('cure', 'cure', at(layers[layers.length - 1].block.id).end, at('demold').start, inForm);
  const afterDemold = route.blocks[route.blocks.findIndex((b) => b.block.id === 'demold') + 2];
  const room = formStanding?.room.id ?? '';
  add('rest', 'rest', at('demold').end, at(afterDemold.block.id).begins, { room, bench: restBench?.id });
  const last = applied[applied.length - 1];
  if (last.block.application?.stay === 'coats') {
    const end = times.get('finish') ?? at('ready');
    add('full-cure', 'cure', at(last.block.id).end, end.start, onBench);
  }
  return out;
}

/** All steps of a piece in the order of time. */
export function stepsOf(ground: Ground, answer: Assignment, reading: PieceReading, unit: UnitOf): PlanStep[] {
  const steps = [...attendedSteps(ground, answer, reading, unit), ...waitingSteps(ground, reading, unit)];
  const minutes = new Map(steps.map((step) => [step, toMinute(ground.clock, step.start)]));
  const minuteOf = (step: PlanStep): number => minutes.get(step) ?? 0;
  // What begins at the same minute stays in the order of the work.
  return steps.sort((a, b) => minuteOf(a) - minuteOf(b));
}
