/** What has happened stays as it was written down, and what is planned is not called done. */
import { brokenAt, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import { readMoment } from '../minutes.ts';

const RULE = 'actuals';

export function actuals(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { piece, byId, steps, expected } of evidence.pieces) {
    const record = new Map(piece.actuals.map((actual) => [actual.step, actual]));
    for (const [id, actual] of record) {
      const timed = byId.get(id);
      if (!timed) continue;
      const wrong = (text: string): void =>
        void broken.push(brokenAt(RULE, timed, `${nameOf(timed)} ${text}`));
      const started = readMoment(actual.started, evidence.zone);
      if (timed.start !== started)
        wrong(`is said to start ${evidence.say(timed.start)}; it started ${evidence.say(started)}.`);
      if (actual.ended !== undefined) {
        const ended = Math.max(started, readMoment(actual.ended, evidence.zone));
        if (timed.end !== ended)
          wrong(`is said to end ${evidence.say(timed.end)}; it ended ${evidence.say(ended)}.`);
      } else if (timed.end < evidence.now && !timed.ended) {
        wrong(`is under way, yet said to have ended ${evidence.say(timed.end)}.`);
      }
    }
    const attended = new Set(expected.map((step) => step.id));
    for (const timed of steps) {
      const { state, step } = timed.step;
      if (!attended.has(step)) continue;
      const isWrong = timed.started
        ? (state === 'planned' && record.has(step)) ||
          (state !== 'done' && record.get(step)?.ended !== undefined)
        : state !== 'planned';
      const right = timed.ended ? 'done' : timed.started ? 'begun' : 'planned';
      if (isWrong) broken.push(brokenAt(RULE, timed, `${nameOf(timed)} is called ${state}; it is ${right}.`));
    }
  }
  return broken;
}
