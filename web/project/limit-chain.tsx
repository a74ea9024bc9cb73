import { number } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';

interface Link {
  name: string;
  amps: number | undefined;
}

/** The chain of limits from the service to the car, each with its amperes as the answer gives them. */
function linksOf(option: EstimateOption, description: Estimate['description']): Link[] {
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  const branch = option.runs.find(({ role, name }) => role === 'branch-circuit' && name.startsWith('charger'));
  const stated = description.options.find(({ id }) => id === option.id);
  const charger = stated?.chargers[0]?.amps;
  return [
    { name: 'service', amps: description.site.service.ratingA ?? undefined },
    { name: 'feeder', amps: feeder?.ocpdA },
    { name: 'breaker', amps: branch?.ocpdA },
    { name: 'wire', amps: branch?.conductor.ampacityA },
    { name: 'outlet', amps: stated?.receptacle?.circuitA },
    { name: 'charger', amps: typeof charger === 'number' ? charger : branch?.continuousA },
    { name: 'car', amps: description.driving?.cars[0]?.maxA },
  ];
}

/** The chain as one line of links; the weakest, which the answer names, is marked. */
export function LimitChain({ option, description }: { option: EstimateOption; description: Estimate['description'] }) {
  const weakest = option.charging?.perCharger[0]?.limitedBy;
  return (
    <ol className="chain">
      {linksOf(option, description).map(({ name, amps }) =>
        amps === undefined ? null : (
          <li key={name} className={name === weakest ? 'weakest' : undefined}>
            {name} {number(amps, 0)} <small>A</small>
            {name === weakest && <span className="visually-hidden"> (the weakest)</span>}
          </li>
        ),
      )}
    </ol>
  );
}
