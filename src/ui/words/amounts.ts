/** Amounts of the whole shop, where the last millilitre does not matter; what is measured the engine writes. */
import { usFluidOuncesOfMl, type Units } from '../../engine/shop/index.ts';

/** `420 mL`, `1.25 L` or `14.2 US fl oz`. */
export const volumeText = (ml: number, units: Units): string => {
  if (units === 'us') return `${usFluidOuncesOfMl(ml).toFixed(1)} US fl oz`;
  return ml >= 1000 ? `${(ml / 1000).toFixed(2)} L` : `${Math.round(ml)} mL`;
};
