/** What is assumed when the maker's sheet or file is silent. Each says where it comes from; the sheet always wins. */

interface Fallback {
  readonly value: number;
  readonly source: string;
}

const common = 'common practice, no source';

export const fallback = {
  warmUpMinutes: { value: 60, source: common },
  dustSettleMinutes: { value: 120, source: common },
  turnaroundMinutes: { value: 45, source: common },
  heatUpMinutes: { value: 60, source: common },
  referenceDegC: { value: 23, source: 'ISO 291:2008 standard atmosphere 23/50 (from memory)' },
  lowestDegC: { value: 15, source: common },
  highestDegC: { value: 30, source: common },
  smallestDepthMm: { value: 1, source: common },
  dewPointMarginK: { value: 3, source: 'FHWA-RD-98-084: surface at least 3 degC above the dew point' },
  deliveryDays: { value: 7, source: common },
  bubblePassFromMinutes: { value: 10, source: common },
  bubblePassToMinutes: { value: 30, source: common },
  bubblePassMinutes: { value: 5, source: common },
  mixMinutes: { value: 5, source: common },
  pourMinutes: { value: 5, source: common },
  scuffMinutes: { value: 20, source: common },
  flipMinutes: { value: 5, source: common },
  coverMlPerM2: { value: 300, source: common },
  cupLossPercent: { value: 5, source: common },
  cupReadsMl: { value: 5, source: common },
  cupReadsUsFlOz: { value: 0.25, source: common },
  scaleReadsG: { value: 1, source: common },
  tintScaleReadsG: { value: 0.1, source: common },
  ratioTolerancePercent: { value: 3, source: common },
  keepsDaysOpened: { value: 180, source: common },
  activationEnergyKJPerMol: {
    value: 53,
    source:
      'inside the 43 to 60 kJ/mol measured from gel times of amine-cured epoxies (J. Appl. Polym. Sci. 92 (2004) 1190; 56 (1995) 1029; Thermochim. Acta 447 (2006) 167)',
  },
} as const satisfies Record<string, Fallback>;
