/** What the lags alone say of how far apart starts surely are: the least gains of maps, and longest paths over them. */
import { isConstant, leastGain } from './maps.ts';
import { NEVER, type Model, type MonotoneMap, type Time } from './model.ts';

/** Where there is none. */
export const NO_PATH = -NEVER;

/** The least of `at(s) - s` over the window of any start; for maps that do not tell, a safe value from a grid. */
export class Gains {
  private readonly known = new Map<MonotoneMap, Time>();

  constructor(
    private readonly least: readonly number[],
    private readonly greatest: readonly number[],
  ) {}

  of(map: MonotoneMap): Time {
    if (isConstant(map)) return map.gap;
    const told = leastGain(map);
    if (told > NO_PATH) return told;
    const found = this.known.get(map);
    if (found !== undefined) return found;
    // For every start at once, so that the answer can be shared by all that use the map.
    const a = Math.min(...this.least);
    const b = Math.max(...this.greatest);
    const step = Math.max(1, Math.ceil((b - a + 1) / 2000));
    let gain = NEVER;
    // Monotone, so within a step the map is at least its value at the step's beginning.
    for (let s = a; s <= b; s += step) gain = Math.min(gain, map.at(s) - Math.min(b, s + step - 1));
    const safe = Math.max(NO_PATH, gain);
    this.known.set(map, safe);
    return safe;
  }
}

/** Longest paths over unconditional lags: `s_to >= s_from + path[from * n + to]`. */
export function closure(model: Model, gains: Gains, n: number): Int32Array {
  const path = new Int32Array(n * n).fill(NO_PATH);
  for (const lag of model.lags) {
    if (lag.when !== undefined && lag.when.length > 0) continue;
    if (lag.kind === 'least') {
      const k = lag.from * n + lag.to;
      path[k] = Math.max(path[k], gains.of(lag.map));
    } else if (isConstant(lag.map)) {
      const k = lag.to * n + lag.from;
      path[k] = Math.max(path[k], -lag.map.gap);
    }
  }
  const reached = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    let count = 0;
    for (let j = 0; j < n; j++) if (path[k * n + j] > NO_PATH && j !== k) reached[count++] = j;
    if (count === 0) continue;
    for (let i = 0; i < n; i++) {
      const head = path[i * n + k];
      if (head === NO_PATH || i === k) continue;
      const row = i * n;
      for (let c = 0; c < count; c++) {
        const j = reached[c];
        const through = head + path[k * n + j];
        if (through > path[row + j]) path[row + j] = Math.min(through, NEVER);
      }
    }
  }
  return path;
}
