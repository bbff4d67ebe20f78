/** Files of the device: saved to it, and picked from it. */
export { saveFile, saveShop } from './save-file.ts';
export { ShopPicker } from './shop-picker.tsx';
