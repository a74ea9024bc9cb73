import { standardRatingsA } from '../../electrical/overcurrent.ts';
import { refedCircuits, reusesRaceway, supplyFate } from '../plan/existing-supply.ts';
import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, materials, named, shown, work } from './demand.ts';

const SCOPE = 'other';

/** Taking an older supply out, and moving what it fed to the subpanel. Nothing while only raceway is built. */
export function existingSupplyDemands(plan: PlannedOption): Demands {
  const { option } = plan;
  const gone = supplyFate(plan) === 'removed' && option.feed !== 'existing-receptacle' && !option.roughInOnly;
  if (!gone || plan.runs.length === 0) return joined([]);
  return joined([disconnected(plan), leftBehind(plan), ...(option.feed === 'subpanel' ? [refed(plan)] : [])]);
}

function disconnected({ description }: PlannedOption): Demands {
  const poles = description.site.existingCircuit?.poles ?? 1;
  const because = 'the old supply is switched off, proved dead, and taken off at both ends';
  return joined([
    work({ task: 'supply-disconnect', scope: SCOPE, unit: 'job', quantity: 1, because }),
    named({
      name: 'breaker-filler',
      description: 'filler for the space of a breaker that is taken out',
      scope: 'panel',
      quantity: poles,
      because: `${counted(poles, 'space')} left open by the old breaker`,
    }),
  ]);
}

/** Cable stays where it is, capped and labelled; out of a raceway the conductors are pulled, as far as the new route goes. */
function leftBehind({ description, route }: PlannedOption): Demands {
  const raceway = description.site.existingCircuit?.raceway ?? 'none';
  if (raceway === 'none') return cappedTwice('the ends of the old cable, which stays where it is', 'cable-end-cap');
  const ft = route.reduce((sum, { feet }) => sum + feet.likely, 0);
  const pulled = work({
    task: 'pull-out',
    scope: SCOPE,
    unit: 'ft',
    quantity: ft,
    because: `the old conductors come out of their raceway, ${shown(ft)} ft if it is as long as the new route`,
  });
  const reused = reusesRaceway(route.map(({ stated }) => stated));
  return reused ? pulled : joined([pulled, cappedTwice('the ends of the old raceway, empty now', 'raceway-cap')]);
}

function cappedTwice(because: string, name: 'cable-end-cap' | 'raceway-cap'): Demands {
  const description = name === 'raceway-cap' ? 'cap for an empty raceway' : 'cap for the end of a dead cable';
  return joined([
    named({ name, description, scope: SCOPE, quantity: 2, because }),
    work({ task: 'cap-and-label', scope: SCOPE, quantity: 2, because }),
  ]);
}

/** Receptacles and light of an outbuilding have ground-fault protection by the breaker, up to what is sold. NEC 210.8(A). */
const GROUND_FAULT_TO_A = 20;

/** The standard rating that protects old conductors of so many amperes, never above them. NEC 240.4, Table 240.6(A). */
function standardUpTo(amps: number): number {
  return standardRatingsA().findLast((ratingA) => ratingA <= amps) ?? amps;
}

function refed(plan: PlannedOption): Demands {
  return joined(
    refedCircuits(plan).map(({ use, amps, poles }) => {
      const gfci = poles === 1 && amps <= GROUND_FAULT_TO_A;
      const ratingA = standardUpTo(amps);
      const because = `${use}: brought to the subpanel, ${shown(amps)} A`;
      return joined([
        materials({
          spec: { is: 'breaker', ratingA, poles, gfci },
          description: `breaker ${shown(ratingA)} A, ${counted(poles, 'pole')}${gfci ? ', ground-fault protected' : ''}, for ${use}`,
          scope: 'breaker',
          quantity: 1,
          because,
        }),
        named({
          name: 'refeed-parts',
          description: 'cable, box and connectors that bring an old circuit to a new panel',
          scope: SCOPE,
          unit: 'job',
          quantity: 1,
          because,
        }),
        work({ task: 'refeed-circuit', scope: SCOPE, unit: 'job', quantity: 1, because }),
      ]);
    }),
  );
}
