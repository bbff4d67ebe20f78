/** Where a command writes: the document on standard output, everything else on standard error. */

/** Lines are kept to what is easily read, however wide the window is. */
const WIDEST = 100;
const NARROWEST = 60;
const UNKNOWN_WIDTH = 96;

export interface Paint {
  strong(text: string): string;
  alarm(text: string): string;
  faint(text: string): string;
}

export interface Terminal {
  /** Columns to lay text out in. */
  readonly width: number;
  readonly paint: Paint;
  /** Whether a person reads standard output. */
  readonly isWatched: boolean;
  /** Writes the document, or a part of it, to standard output. */
  print(text: string): void;
  /** Says something to the person, on standard error. */
  say(text: string): void;
  /** One line on standard error that replaces itself; nothing at all when standard error is no terminal. */
  progress(text: string): void;
  /** Takes the progress line away. */
  clearProgress(): void;
}

const PLAIN: Paint = { strong: (text) => text, alarm: (text) => text, faint: (text) => text };

const escape = (on: number, off: number) => (text: string) => `\u001B[${on}m${text}\u001B[${off}m`;
const COLOURED: Paint = { strong: escape(1, 22), alarm: escape(31, 39), faint: escape(2, 22) };

/** The terminal this process runs in. Colour only on a terminal that wants it (see no-color.org). */
export function processTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  // A reader that has seen enough (`| head`) closes the pipe; that is no fault of ours and no reason to fall over.
  for (const stream of [stdout, stderr]) {
    stream.on('error', (fault: NodeJS.ErrnoException) => {
      if (fault.code !== 'EPIPE') throw fault;
    });
  }
  const isWatched = stdout.isTTY === true;
  const hasColour = isWatched && (env.NO_COLOR ?? '') === '' && env.TERM !== 'dumb';
  const columns = isWatched ? stdout.columns : UNKNOWN_WIDTH;
  let progressLength = 0;
  const clearProgress = () => {
    if (progressLength > 0) stderr.write(`\r${' '.repeat(progressLength)}\r`);
    progressLength = 0;
  };
  return {
    width: Math.min(WIDEST, Math.max(NARROWEST, columns || UNKNOWN_WIDTH)),
    paint: hasColour ? COLOURED : PLAIN,
    isWatched,
    print: (text) => {
      clearProgress();
      stdout.write(text);
    },
    say: (text) => {
      clearProgress();
      stderr.write(text);
    },
    progress: (text) => {
      if (stderr.isTTY !== true) return;
      const line = text.slice(0, Math.max(1, (stderr.columns || UNKNOWN_WIDTH) - 1));
      clearProgress();
      stderr.write(line);
      progressLength = line.length;
    },
    clearProgress,
  };
}
