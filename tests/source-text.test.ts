import { expect, test } from 'vitest';
import { importsOf, withoutComments } from './source-text.ts';

test('imports are found in every way of writing them', () => {
  const source = [
    "import { a } from './a.ts';",
    "import type { B } from '../b/index.ts';",
    'import {\n  c,\n  d,\n} from "c";',
    "import './bare.ts';",
    "export { e } from './e.ts';",
    "export * from './f.ts';",
    "const g = await import('./g.ts');",
    "new Worker(new URL('./h.ts', import.meta.url));",
    "const n = 'http://x'; import { i } from './i.ts';",
  ].join('\n');
  expect(importsOf(source).sort()).toEqual(
    ['./a.ts', '../b/index.ts', 'c', './bare.ts', './e.ts', './f.ts', './g.ts', './h.ts', './i.ts'].sort(),
  );
});

test('what stands in a comment is no import', () => {
  expect(importsOf("// import { a } from './a.ts';\n/* import './b.ts' */\nexport const c = 1;")).toEqual([]);
});

test('comments go, addresses and other strings stay', () => {
  expect(withoutComments("const a = 'http://x'; // Date.now()\nconst b = 1; /* Math.random */")).toBe(
    "const a = 'http://x';  \nconst b = 1;  ",
  );
});
