import { receptacleFacts } from '../../electrical/ev.ts';
import { checkWetReceptacle } from '../../electrical/wet-receptacles.ts';
import type { Finding } from '../answer.ts';
import type { PlannedOption } from '../plan-types.ts';

/** What was checked of the receptacles for charging, new ones and the one that is there: rain. */
export function outletFindings({ option, outlets, description }: PlannedOption): Finding[] {
  const { edition } = description.site.code;
  const { receptacle, roughInOnly } = option;
  if (roughInOnly) return [];
  if (receptacle) {
    const [charger] = option.chargers;
    const facts = charger && receptacleFacts(charger.connection, edition);
    if (!receptacle.outdoors || !facts) return [];
    return [checkWetReceptacle({ ratingA: facts.ratingA, found: !receptacle.replace, edition })];
  }
  return outlets.flatMap(({ charger, outdoors, run }) => {
    const stated = charger === undefined ? undefined : option.chargers[charger];
    const facts = stated && receptacleFacts(stated.connection, edition);
    if (!outdoors || !facts) return [];
    return [{ ...checkWetReceptacle({ ratingA: facts.ratingA, found: false, edition }), run }];
  });
}
