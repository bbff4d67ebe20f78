/** How cured is an application by a minute, where it really stands; and what its maker's sheet, or a touch, asks for. */
import type { TouchTest } from '../shop/index.ts';
import { ageInBox, AGE_TOLERANCE, speedOf } from './age.ts';
import type { Evidence, PieceCase } from './evidence.ts';
import type { Application } from './expected.ts';
import { readMoment } from './minutes.ts';
import type { Minute } from './minutes.ts';

/** A milestone as it holds for one application, in equivalent minutes at the reference temperature. */
export interface Milestones {
  readonly tackOpens: number;
  readonly tackCloses: number;
  readonly scuffable: number;
  readonly demold: number;
  readonly machinable: number;
  readonly fullCure: number;
}

export interface Curing {
  /**
   * Equivalent minutes that an application has gathered from its start to a minute. With `stalls: false` a cold
   * resin is not taken to stand still: for bounds that must not be overrun.
   */
  age(of: PieceCase, application: Application, to: Minute, how: { readonly stalls: boolean }): number;
  /** Equivalent minutes in a room between two minutes. */
  ageInRoom(
    room: string,
    application: Application,
    from: Minute,
    to: Minute,
    how: { readonly stalls: boolean },
  ): number;
  milestones(of: PieceCase, application: Application): Milestones;
  /** Is this much age reached by then? Ages closer than a thousandth of a second count as equal. */
  hasReached(of: PieceCase, application: Application, milestone: keyof Milestones, by: Minute): boolean;
}

export function makeCuring(evidence: Evidence): Curing {
  const { span, zone } = evidence;
  const inside = (at: Minute): number => Math.min(Math.max(at, span.from), span.to);

  const ageInRoom: Curing['ageInRoom'] = (room, application, from, to, how) => {
    if (!evidence.rooms.has(room) || to <= from) return 0;
    return evidence.ageInRoom(room, speedOf(application.resin, how), inside(from), inside(to));
  };

  const age: Curing['age'] = (of, application, to, how) => {
    const apply = of.byId.get(application.apply);
    if (!apply) return Number.NaN;
    const { room } = apply.step;
    const speed = speedOf(application.resin, how);
    let at = apply.start;
    let gathered = 0;
    for (const stay of application.where === 'form' ? of.boxStays : []) {
      if (stay.to <= at || stay.from >= to) continue;
      const enters = Math.max(at, stay.from);
      const leaves = Math.min(to, stay.to);
      gathered += ageInRoom(room, application, at, enters, how);
      const climate = { ...stay.box, fromDegC: evidence.degC(room, stay.from) };
      gathered += ageInBox(speed, climate, enters - stay.from, leaves - stay.from);
      at = leaves;
    }
    return gathered + ageInRoom(room, application, at, to, how);
  };

  const milestones: Curing['milestones'] = (of, application) => {
    const { resin } = application;
    const tests = of.piece.touchTests.filter(
      (test) => test.step === application.apply || test.step === application.id,
    );
    const ages = tests.map((test) => age(of, application, readMoment(test.at, zone), { stalls: true }));
    return touched(
      {
        tackOpens: resin.tackOpensMinutes,
        tackCloses: resin.tackClosesMinutes,
        scuffable: resin.scuffableMinutes,
        demold: resin.demoldMinutes,
        machinable: resin.machinableMinutes,
        fullCure: resin.fullCureMinutes,
      },
      tests.map((test, i) => ({ found: test.found, age: ages[i] })),
    );
  };

  return {
    age,
    ageInRoom,
    milestones,
    hasReached: (of, application, milestone, by) =>
      age(of, application, by, { stalls: true }) >= milestones(of, application)[milestone] - AGE_TOLERANCE,
  };
}

/**
 * The sheet's milestones after what fingers have found, one after the other. Wet when it should be tacky: all comes
 * later. Tacky before it should be: all comes sooner. Tacky when it should have hardened: all comes later. Hard: its
 * window is shut from that age on.
 */
function touched(
  sheet: Milestones,
  tests: readonly { readonly found: TouchTest['found']; readonly age: number }[],
): Milestones {
  let factor = 1;
  let shutAt = Number.POSITIVE_INFINITY;
  for (const { found, age } of tests) {
    if (!(age > 0)) continue;
    if (found === 'wet') factor = Math.max(factor, age / sheet.tackOpens);
    else if (found === 'hard') shutAt = Math.min(shutAt, age);
    else if (age < sheet.tackOpens * factor) factor = age / sheet.tackOpens;
    else factor = Math.max(factor, age / sheet.tackCloses);
  }
  return {
    tackOpens: sheet.tackOpens * factor,
    tackCloses: Math.min(sheet.tackCloses * factor, shutAt),
    scuffable: sheet.scuffable * factor,
    demold: sheet.demold * factor,
    machinable: sheet.machinable * factor,
    fullCure: sheet.fullCure * factor,
  };
}
