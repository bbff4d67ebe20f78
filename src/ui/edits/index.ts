/** Everything a screen can do to the shop. */
export { beginStep, endStep, forgetActual, forgetAhead, touchSurface, type Places } from './actuals.ts';
export { changePiece, type Edit } from './edit.ts';
export {
  chooseWay,
  isHeldInPlace,
  pinStep,
  pinWhole,
  swapForms,
  together,
  toggleWholePin,
  unpinStep,
  unpinWhole,
  wishForms,
} from './pins.ts';
