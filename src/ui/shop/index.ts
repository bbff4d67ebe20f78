/** The Shop screen, and what of it other screens use. */
export { HoursEditor, WeekStrip, andList, hoursText } from './hours/index.ts';
export { DraftSheet } from './sheets/draft-sheet.tsx';
export { EntrySheet, type Opened } from './sheets/entry-sheet.tsx';
export { RecipePicture } from './pictures/recipe-picture.tsx';
export { ResinPicture } from './pictures/resin-picture.tsx';
export { RoomPicture } from './pictures/room-picture.tsx';
export { zoneNames } from './sheets/shop-sheet.tsx';
export { ShopScreen } from './shop-screen.tsx';
