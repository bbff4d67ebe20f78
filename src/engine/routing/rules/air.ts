/**
 * Resin is mixed and applied only while the air suits it: inside its maker's temperatures, clear of the dew point,
 * and cool enough that the mix is out of the cup within its working time.
 */
import { temperatureText } from '../../shop/index.ts';
import { standingsOf } from '../application-cure.ts';
import { eachPiece } from './rule.ts';

export const air = eachPiece((builder, ground, route) => {
  for (const { block, start, past } of route.blocks) {
    const { application } = block;
    if (!application || past) continue;
    const resin = ground.resin(application.resin);
    const [lowest, highest] = [resin.lowestDegC, resin.highestDegC].map((degC) =>
      temperatureText(degC, ground.shop.units),
    );
    const reason = builder.reason(
      'air',
      route.itinerary.piece.id,
      block.id,
      `${resin.name} needs ${lowest} to ${highest}, dry air and time to pour it out`,
    );
    for (const { value, when } of standingsOf(route, application)) {
      const allowed = ground.pourable(value.room, resin, application);
      builder.opening(start, allowed, when, reason);
    }
  }
});
