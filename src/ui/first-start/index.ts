/** First start: the example's note, and the screen behind it, which loads when it is opened. */
import { lazy } from 'solid-js';

export { ExampleNote } from './example-note.tsx';
export const StartScreen = lazy(async () => ({ default: (await import('./start-screen.tsx')).StartScreen }));
