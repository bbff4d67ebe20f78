/** The Pieces screen. */
export { PiecesScreen } from './pieces-screen.tsx';
