/** The house's own rules, held by machine: who may import whom, by which door, and what the engine never touches. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { importsOf, withoutComments } from './source-text.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** A room and the rooms it may import. What is not listed is forbidden. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  'engine/schedule': [],
  'engine/time': [],
  'engine/shop': ['engine/time'],
  'engine/cure': ['engine/shop', 'engine/time'],
  'engine/routing': ['engine/shop', 'engine/time', 'engine/cure', 'engine/schedule'],
  'engine/plan': ['engine/shop', 'engine/time', 'engine/cure', 'engine/routing', 'engine/schedule'],
  'engine/check': ['engine/shop', 'engine/time', 'engine/plan'],
  'engine/mix': ['engine/shop', 'engine/time', 'engine/cure', 'engine/routing', 'engine/plan'],
  'engine/formats': ['engine/shop', 'engine/time', 'engine/cure', 'engine/plan', 'engine/mix'],
  demo: [],
  // The engine's own door gathers the rooms.
  engine: ['shop', 'time', 'cure', 'routing', 'schedule', 'plan', 'check', 'formats', 'mix'].map(
    (room) => `engine/${room}`,
  ),
  cli: ['demo', 'engine', 'engine/time', 'engine/shop', 'engine/plan', 'engine/formats', 'engine/mix'],
  ui: ['demo', 'engine', 'engine/time', 'engine/shop', 'engine/plan', 'engine/formats', 'engine/mix'],
};

/** Plain data that stands for its room as its door does. */
const CONTRACTS: Readonly<Record<string, readonly string[]>> = {
  'engine/schedule/model.ts': ['engine/time', 'engine/cure', 'engine/routing', 'engine/plan'],
  'engine/plan/document.ts': ['engine/check', 'engine/formats', 'engine/mix', 'ui', 'cli'],
};

/** Packages that are let into few places. */
const PACKAGE_PLACES: Readonly<Record<string, readonly string[]>> = {
  luxon: ['engine/time', 'ui'],
  rrule: ['engine/time'],
  'solid-js': ['ui'],
  'idb-keyval': ['ui'],
  '@fullcalendar/core': ['ui'],
  vite: ['cli'],
};

interface Import {
  readonly file: string;
  /** The file imported, from `src/`, or the package's name. */
  readonly target: string;
  readonly isPackage: boolean;
}

const files = sourceFiles(join(ROOT, 'src'));
const imports: readonly Import[] = files.flatMap((file) =>
  importsOf(textOf(file)).map((specifier) =>
    specifier.startsWith('.')
      ? { file, target: posix.join(posix.dirname(file), specifier).replace(/\?.*$/, ''), isPackage: false }
      : { file, target: packageName(specifier), isPackage: true },
  ),
);
const inside = imports.filter(({ isPackage, target }) => !isPackage && !target.startsWith('..'));
const packages = imports.filter(({ isPackage }) => isPackage);

describe('the direction of flow', () => {
  test('the walk sees the house: every room of the engine, and the imports between them', () => {
    const rooms = new Set(files.map(roomOf));
    expect([...rooms].filter((room) => !(room in MAY_IMPORT))).toEqual([]);
    for (const room of ['engine', 'engine/check', 'engine/schedule', 'cli', 'ui'])
      expect(rooms).toContain(room);
    expect(inside.length).toBeGreaterThan(files.length);
  });

  test('a room imports only rooms that come before it', () => {
    const wrong = inside.filter(({ file, target }) => {
      const [from, to] = [roomOf(file), roomOf(target)];
      if (from === to || CONTRACTS[target]?.includes(from) === true) return false;
      return !MAY_IMPORT[from].includes(to);
    });
    expect(wrong.map(arrow)).toEqual([]);
  });

  test('another folder is entered by its door', () => {
    const wrong = inside.filter(({ file, target }) => {
      const folder = posix.dirname(target);
      if (target.endsWith('/index.ts') || isAt(posix.dirname(file), folder)) return false;
      // Inside one house of rooms (engine/plan, ui/forms, cli/page) a file may reach into a folder of its own.
      if (houseOf(file) === houseOf(target)) return false;
      return CONTRACTS[target]?.includes(roomOf(file)) !== true;
    });
    expect(wrong.filter(({ target }) => /\.tsx?$/.test(target)).map(arrow)).toEqual([]);
  });

  test('the scheduler imports nothing from outside its room', () => {
    const own = imports.filter(({ file }) => roomOf(file) === 'engine/schedule');
    expect(own.filter(({ target }) => roomOf(target) !== 'engine/schedule').map(arrow)).toEqual([]);
  });

  test('the checker reaches the scheduler, the routing and the cure by no way at all', () => {
    const forbidden = ['engine/schedule', 'engine/routing', 'engine/cure'];
    const reached = reachableFrom(files.filter((file) => roomOf(file) === 'engine/check'));
    expect([...reached].filter((file) => forbidden.includes(roomOf(file)) && !isContract(file))).toEqual([]);
  });
});

describe('packages', () => {
  test('luxon, rrule and the like stay where they can be exchanged', () => {
    const wrong = packages.filter(({ file, target }) => {
      const places = PACKAGE_PLACES[target];
      return places !== undefined && !places.some((place) => isAt(roomOf(file), place));
    });
    expect(wrong.map(arrow)).toEqual([]);
  });

  test('nothing of Node is used outside the command line', () => {
    expect(
      packages.filter(({ file, target }) => target.startsWith('node:') && roomOf(file) !== 'cli').map(arrow),
    ).toEqual([]);
  });
});

describe('the engine is pure', () => {
  const engine = files.filter((file) => file.startsWith('engine/'));
  test.each([
    [
      'the time of day',
      /\bDate\s*\.\s*now\b|\bnew\s+Date\s*(\(\s*\)|(?!\s*\())|(?<!new\s)\bDate\s*\(\s*\)|\bDateTime\s*\.\s*(now|local|utc)\s*\(\s*\)/,
    ],
    ['chance without a seed', /\bMath\s*\.\s*random\b|\bcrypto\b/],
    ['a clock that measures', /\bperformance\s*\.\s*now\b|\bhrtime\b/],
  ])('it never asks for %s', (_, pattern) => {
    expect(engine.filter((file) => pattern.test(withoutComments(textOf(file))))).toEqual([]);
  });
});

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => relative(folder, join(folder, name)).split(sep).join('/'))
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('.d.ts'))
    .sort();
}

function textOf(file: string): string {
  return readFileSync(join(ROOT, 'src', file), 'utf8');
}

/** `engine/time` of `engine/time/clock.ts`, `engine` of `engine/index.ts`, `ui` of anything of the screens. */
function roomOf(file: string): string {
  const parts = file.split('/');
  return parts[0] === 'engine' && parts.length > 2 ? `engine/${parts[1]}` : parts[0];
}

/** The first two folders: `ui/forms` of `ui/forms/model/lanes.ts`. */
function houseOf(file: string): string {
  return posix.dirname(file).split('/').slice(0, 2).join('/');
}

function packageName(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

function isContract(file: string): boolean {
  return file in CONTRACTS;
}

/** Whether `folder` is `place` or lies in it. */
function isAt(folder: string, place: string): boolean {
  return folder === place || folder.startsWith(`${place}/`);
}

function reachableFrom(start: readonly string[]): Set<string> {
  const reached = new Set(start);
  const waiting = [...start];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    for (const { target } of inside.filter((one) => one.file === file)) {
      if (reached.has(target)) continue;
      reached.add(target);
      waiting.push(target);
    }
  }
  return reached;
}

const arrow = ({ file, target }: Import) => `${file} -> ${target}`;
