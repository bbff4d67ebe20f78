import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/engine/index.ts';
import { makeEngine } from '../../../src/ui/engine/index.ts';
import { makeLine, type WorkerLike } from '../../../src/ui/engine/line.ts';
import type { Planned, Reply, Request } from '../../../src/ui/engine/protocol.ts';
import { inProcess } from '../in-process.ts';
import { NOW, shopOf, shopText } from '../small-shop.ts';

/** A wire whose other end the test holds. */
const wire = () => {
  const sent: Request[] = [];
  let hear: (event: { readonly data: Reply }) => void = () => undefined;
  let fail: (event: { readonly message: string }) => void = () => undefined;
  const worker: WorkerLike = {
    postMessage: (message) => void sent.push(message as Request),
    addEventListener(kind: 'message' | 'error', heard: (event: never) => void) {
      if (kind === 'message') hear = heard as typeof hear;
      else fail = heard as typeof fail;
    },
    terminate: () => undefined,
  };
  return {
    worker,
    sent,
    reply: (data: Reply) => hear({ data }),
    fail: (message: string) => fail({ message }),
  };
};

describe('the line to a worker', () => {
  test('answers find their questions, in whatever order they come', async () => {
    const { worker, sent, reply } = wire();
    const line = makeLine(worker);
    const first = line.ask('open', { text: '1' });
    const second = line.ask('open', { text: '2' });
    expect(line.busy('open')).toBe(true);
    expect(line.busy('plan')).toBe(false);
    const faults = (path: string) => ({ ok: false, faults: [{ path, found: '', message: '' }] });
    reply({ id: sent[1].id, kind: 'answer', answer: faults('second') });
    reply({ id: sent[0].id, kind: 'answer', answer: faults('first') });
    expect(await first).toEqual(faults('first'));
    expect(await second).toEqual(faults('second'));
    expect(line.busy('open')).toBe(false);
  });

  test('a reply that nobody waits for is dropped', () => {
    const { worker, reply } = wire();
    makeLine(worker);
    expect(() => reply({ id: 99, kind: 'answer', answer: true })).not.toThrow();
  });

  test('a worker that cannot be loaded fails what was asked, in words', async () => {
    const { worker, fail } = wire();
    const line = makeLine(worker);
    const asked = line.ask('open', { text: '' });
    fail('');
    await expect(asked).rejects.toThrow('the planning engine could not be loaded');
  });
});

describe('the door to the engine', () => {
  test('a shop file goes in, a checked plan with its cures comes out', async () => {
    const engine = makeEngine(inProcess);
    const opened = await engine.ask('open', { text: shopText });
    if (!opened.ok) throw new Error(JSON.stringify(opened.faults));
    const job = engine.plan({ shop: opened.shop, now: NOW, seed: 1, budget: 20_000 }, () => undefined);
    const answer = await job.done;
    if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
    expect(answer.planned.broken).toEqual([]);
    expect(answer.planned.plan.steps.length).toBeGreaterThan(20);
    const applied = answer.planned.plan.steps.filter((step) => ['seal', 'pour', 'coat'].includes(step.kind));
    const cures = await engine.ask('hold', { shop: opened.shop, plan: answer.planned.plan });
    expect(cures).toHaveLength(applied.length);
    const around = await engine.ask('surroundings', { range: { from: NOW, to: '2026-11-27T14:30' } });
    expect(around.air[0].samples.length).toBeGreaterThan(40);
    expect(around.hours[0].open.length).toBeGreaterThan(1);
    expect(await engine.ask('why', { piece: 'wren', step: 'layer-2-pour' })).not.toEqual([]);
    engine.close();
  });

  test('what is no shop file comes back as faults, each with its place', async () => {
    const engine = makeEngine(inProcess);
    const opened = await engine.ask('open', { text: '{"format":"pourwright.shop","version":1}' });
    expect(opened.ok).toBe(false);
    expect(opened.ok ? [] : opened.faults.map((fault) => fault.path)).toContain('rooms');
    engine.close();
  });

  test('an edit that would break the file is refused before it is planned', async () => {
    const engine = makeEngine(inProcess);
    const shop = shopOf((old) => ({ ...old, resins: [] }));
    const answer = await engine.plan({ shop, now: NOW, seed: 1, budget: 1000 }, () => undefined).done;
    expect(answer.ok).toBe(false);
    engine.close();
  });

  test('a question without a plan says so instead of failing silently', async () => {
    const engine = makeEngine(inProcess);
    await expect(engine.ask('why', { piece: 'wren', step: 'prepare' })).rejects.toThrow(
      'there is no plan yet',
    );
    engine.close();
  });

  test('a plan that was rehearsed is the plan that was not', async () => {
    const engine = makeEngine(inProcess);
    const request = { shop: shopOf(), now: NOW, seed: 1, budget: 5_000 };
    const plain = await engine.plan(request, () => undefined).done;
    if (!plain.ok) throw new Error(JSON.stringify(plain.faults));
    const standing = plain.planned.plan;
    const pinned = shopOf((old) => ({
      ...old,
      pieces: old.pieces.map((piece) => ({ ...piece, pins: [{ step: 'prepare', at: '2026-11-28T10:00' }] })),
    }));
    const again = { ...request, shop: pinned, standing };
    const unrehearsed = makeEngine(inProcess);
    const expected = await unrehearsed.plan(again, () => undefined).done;
    // While a plan is being made it is the standby that rehearses; and a broken file rehearses nothing.
    engine.plan({ ...request, seed: 2 }, () => undefined);
    engine.rehearse({ ...request, standing });
    engine.rehearse({ ...request, shop: shopOf((old) => ({ ...old, resins: [] })) });
    expect(await engine.plan(again, () => undefined).done).toEqual(expected);
    engine.rehearse({ ...again });
    expect(await engine.plan(again, () => undefined).done).toEqual(expected);
    unrehearsed.close();
    engine.close();
  });

  test('what is foreseen is the first plan that is then shown; of a broken file, none', async () => {
    const engine = makeEngine(inProcess);
    const request = { shop: shopOf(), now: NOW, seed: 1, budget: 5_000 };
    const plain = await engine.plan(request, () => undefined).done;
    if (!plain.ok) throw new Error(JSON.stringify(plain.faults));
    const pinned = shopOf((old) => ({
      ...old,
      pieces: old.pieces.map((piece) =>
        piece.id === 'wren' ? { ...piece, pins: [{ step: 'prepare', at: '2026-11-27T09:00' }] } : piece,
      ),
    }));
    const again = { ...request, shop: pinned, standing: plain.planned.plan };
    const foreseen = await engine.foresee(again);
    const shown: Planned[] = [];
    await engine.plan(again, (better) => void shown.push(better)).done;
    expect(foreseen?.broken).toEqual([]);
    expect(foreseen).toEqual(shown[0]);
    expect(await engine.foresee({ ...request, shop: shopOf((old) => ({ ...old, resins: [] })) })).toBeNull();
    engine.close();
  });

  test('a worker loads once something is asked, for the plan that follows, and none beside it until there is a plan', () => {
    const workers: ReturnType<typeof wire>[] = [];
    const engine = makeEngine(() => {
      const made = wire();
      workers.push(made);
      return made.worker;
    });
    void engine.ask('open', { text: '' });
    expect(workers).toHaveLength(2);
    const request = { shop: shopOf(), now: NOW, seed: 1, budget: 1 };
    engine.plan(request, () => undefined);
    expect(workers).toHaveLength(2);
    const [asked] = workers[1].sent;
    expect(asked.ask).toBe('plan');
    const better: Reply = { id: asked.id, kind: 'better', planned: { plan: {} as Plan, broken: [] } };
    workers[1].reply(better);
    workers[1].reply(better);
    expect(workers).toHaveLength(3);
    // One that is planning is ended for the next plan: that goes to the one that stood by.
    engine.plan(request, () => undefined);
    expect(workers[2].sent.map(({ ask }) => ask)).toEqual(['plan']);
    expect(workers).toHaveLength(3);
    engine.close();
  });

  test('a plan that was given up is heard of no more', async () => {
    const engine = makeEngine(inProcess);
    const shop = shopOf();
    let heard = 0;
    const first = engine.plan({ shop, now: NOW, seed: 1, budget: 20_000 }, () => (heard += 1));
    first.stop();
    const second = await engine.plan({ shop, now: NOW, seed: 2, budget: 5_000 }, () => undefined).done;
    expect(second.ok).toBe(true);
    expect(heard).toBe(0);
    engine.close();
  });
});
