/** The frame around the screens. */
export { Shell } from './shell.tsx';
