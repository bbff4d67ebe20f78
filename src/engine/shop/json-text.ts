/**
 * Text to JSON value, with every slip named by line and column. `JSON.parse` decides what is JSON (its own messages
 * differ from browser to browser, so they are not shown); jsonc-parser, which reads on after a slip, finds the places.
 */
import { parse, printParseErrorCode, visit, type ParseError } from 'jsonc-parser';
import { fault, pathText, show, type Fault } from './faults.ts';

export type JsonText =
  | { readonly ok: true; readonly value: unknown; readonly faults: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

const OPTIONS = { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false };
const MOST_SLIPS = 10;

const RIGHT: Readonly<Record<string, string>> = {
  InvalidSymbol:
    'no such word in JSON; text and keys stand in double quotes, and there is true, false and null',
  InvalidNumberFormat: 'no such number in JSON; right would be 12 or 0.5',
  PropertyNameExpected: 'a key in double quotes must stand here; after the last entry there is no comma',
  ValueExpected: 'a value must stand here; after the last entry there is no comma',
  ColonExpected: 'a colon must stand between a key and its value',
  CommaExpected: 'a comma must stand between two entries',
  CloseBraceExpected: 'a closing } is missing',
  CloseBracketExpected: 'a closing ] is missing',
  EndOfFileExpected: 'nothing may stand after the end of the file',
  InvalidCommentToken: 'JSON has no comments; take it out',
  UnexpectedEndOfComment: 'JSON has no comments; take it out',
  UnexpectedEndOfString: 'the closing double quote is missing on this line',
  UnexpectedEndOfNumber: 'the number is not complete',
  InvalidUnicode: 'must be four hexadecimal digits, such as "\\u00e9"',
  InvalidEscapeCharacter: 'no such escape in JSON; a backslash itself is written twice',
  InvalidCharacter: 'no such character may stand in JSON text; a tab is written "\\t", a new line "\\n"',
};

/** Reads JSON; with `ok`, `faults` names keys written twice (JSON would silently keep only the last). */
export function readJson(text: string): JsonText {
  const plain = text.replace(/^\uFEFF/, '');
  let value: unknown;
  try {
    value = JSON.parse(plain);
  } catch {
    return { ok: false, faults: slipsIn(plain) };
  }
  return { ok: true, value, faults: keysWrittenTwice(plain) };
}

function slipsIn(text: string): Fault[] {
  if (text.trim() === '') {
    return [{ path: 'line 1, column 1', found: 'an empty file', message: 'must hold { "format": … }' }];
  }
  const errors: ParseError[] = [];
  try {
    parse(text, errors, OPTIONS);
  } catch {
    return [fault([], undefined, 'cannot be read: it is nested far too deep')];
  }
  const faults: Fault[] = [];
  let lastLine = 0;
  for (const { error, offset, length } of errors) {
    const { line, column } = placeOf(text, offset);
    // After one slip the rest of its line is often misread as well.
    if (line === lastLine || faults.length === MOST_SLIPS) continue;
    lastLine = line;
    faults.push({
      path: `line ${line}, column ${column}`,
      found: length === 0 ? 'the end of the file' : show(text.slice(offset, offset + length).trim()),
      message: RIGHT[printParseErrorCode(error)] ?? 'must be JSON',
    });
  }
  return faults.length > 0
    ? faults
    : [{ path: 'line 1, column 1', found: show(text), message: 'must be JSON' }];
}

function placeOf(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: before[before.length - 1].length + 1 };
}

function keysWrittenTwice(text: string): Fault[] {
  const faults: Fault[] = [];
  const open: Set<string>[] = [];
  try {
    visit(text, {
      onObjectBegin: () => void open.push(new Set()),
      onObjectEnd: () => void open.pop(),
      onObjectProperty: (key, _offset, _length, startLine, startCharacter, pathTo) => {
        const keys = open[open.length - 1];
        if (keys.has(key)) {
          faults.push({
            path: pathText([...pathTo(), key]),
            found: `the key once more, in line ${startLine + 1}, column ${startCharacter + 1}`,
            message: 'must be given only once; take one of the two out',
          });
        }
        keys.add(key);
      },
    });
  } catch {
    return [fault([], undefined, 'cannot be read: it is nested far too deep')];
  }
  return faults;
}
