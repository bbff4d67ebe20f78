/** Reads a source file as text, without a compiler: its imports, and the file without its comments. */

/** A string or template is kept whole, so that `//` in an address is no comment; a comment is dropped. */
const STRING_OR_COMMENT =
  /'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\.|[^`\\])*`|\/\/[^\n]*|\/\*[\s\S]*?\*\//g;

const STATIC = /(?:^|[;\n}])\s*(?:import|export)\b[^'";]*?\bfrom\s*['"]([^'"]+)['"]/g;
const BARE = /(?:^|[;\n}])\s*import\s*['"]([^'"]+)['"]/g;
const DYNAMIC = /\bimport\s*\(\s*['"]([^'"]+)['"]/g;
/** A worker is loaded by `new URL('./worker.ts', import.meta.url)`. */
const BY_ADDRESS = /\bnew\s+URL\(\s*['"](\.{1,2}\/[^'"]+\.tsx?)['"]\s*,\s*import\.meta\.url/g;

/** Every module that a source names, in any of the ways a module can be named; type imports count. */
export function importsOf(source: string): string[] {
  const text = withoutComments(source);
  return [STATIC, BARE, DYNAMIC, BY_ADDRESS].flatMap((pattern) =>
    [...text.matchAll(pattern)].map(([, name]) => name),
  );
}

export function withoutComments(source: string): string {
  return source.replaceAll(STRING_OR_COMMENT, (found) => (found.startsWith('/') ? ' ' : found));
}
