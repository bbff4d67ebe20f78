/** What goes to the wall, into the calendar and to the shop: sheets, cards, files, stock. */
export { PaperScreen } from './paper-screen.tsx';
export { Cautions } from './cautions.tsx';
