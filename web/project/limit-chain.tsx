import { conductorsOf, number } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';

interface Link {
  name: string;
  /** Nothing where the chain has no such link; `null`: it has one, and nobody knows what it carries. */
  amps: number | null | undefined;
}

/** The chain of limits from the service to the car, each with its amperes as the answer gives them. */
function linksOf(option: EstimateOption, description: Estimate['description']): Link[] {
  const feeder = option.runs.find(({ role }) => role === 'feeder');
  const branch = option.runs.find(({ role, name }) => role === 'branch-circuit' && name.startsWith('charger'));
  const stated = description.options.find(({ id }) => id === option.id);
  const charger = stated?.chargers[0]?.amps;
  return [
    { name: 'service', amps: stated?.serviceUpgrade?.toA ?? description.site.service.ratingA },
    { name: 'feeder', amps: feeder?.ocpdA },
    { name: 'breaker', amps: branch?.ocpdA },
    { name: 'wire', amps: branch && Math.min(...conductorsOf(branch).map(({ ampacityA }) => ampacityA)) },
    { name: 'outlet', amps: stated?.receptacle?.circuitA },
    { name: 'charger', amps: typeof charger === 'number' ? charger : branch?.continuousA },
    { name: 'car', amps: description.driving?.cars[0]?.maxA },
  ];
}

/** The chain as one line of links; the weakest, which the answer names, is marked, also where it is none of them. */
export function LimitChain({ option, description }: { option: EstimateOption; description: Estimate['description'] }) {
  const weakest = option.charging?.perCharger[0]?.limitedBy;
  const links = linksOf(option, description).filter(({ amps }) => amps !== undefined);
  const isWeakest = (name: string) => weakest?.split(', ').includes(name) ?? false;
  const marked = <span className="visually-hidden"> (the weakest)</span>;
  return (
    <ol className="chain">
      {links.map(({ name, amps }) => (
        <li key={name} className={isWeakest(name) ? 'weakest' : undefined}>
          {typeof amps === 'number' ? (
            <>
              {name} {number(amps, 0)} <small>A</small>
            </>
          ) : (
            `${name}: not known`
          )}
          {isWeakest(name) && marked}
        </li>
      ))}
      {weakest !== undefined && !links.some(({ name }) => isWeakest(name)) && (
        <li className="weakest">
          {weakest}
          {marked}
        </li>
      )}
    </ol>
  );
}
