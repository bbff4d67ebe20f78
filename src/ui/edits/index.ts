/** Everything a screen can do to the shop. */
export { beginStep, endStep, forgetActual, touchSurface, type Places } from './actuals.ts';
export { changePiece, type Edit } from './edit.ts';
export {
  chooseWay,
  pinStep,
  pinWhole,
  swapForms,
  together,
  unpinStep,
  unpinWhole,
  wishForms,
} from './pins.ts';
