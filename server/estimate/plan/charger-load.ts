import { chargerLoadA } from '../../electrical/ev.ts';
import type { Finding } from '../answer.ts';
import type { Edition } from '../vocabulary.ts';
import { findingOf, type Job, type SettledCharger } from './job.ts';

/** Is the charger one of the two that plug into a 120 V receptacle? */
export function is120V({ connection }: Pick<SettledCharger, 'connection'>): boolean {
  return connection === 'receptacle-5-15' || connection === 'receptacle-5-20';
}

/** What a charger counts, in amperes: its setting where that is restricted and on the label, else its nameplate. */
export function chargerA(charger: SettledCharger, edition: Edition): number {
  return chargerLoadA({ ...charger, edition }).loadA;
}

/** Chargers that hang on one circuit, by their index in the option. */
export interface ChargerGroup {
  name: string;
  chargers: number[];
}

/** Which chargers share a circuit: those of one group; each of the others has its own. In the order stated. */
export function chargerGroups(chargers: readonly SettledCharger[]): ChargerGroup[] {
  const groups: { group: string | undefined; chargers: number[] }[] = [];
  chargers.forEach(({ group }, at) => {
    const known = group === undefined ? undefined : groups.find((one) => one.group === group);
    if (known) known.chargers.push(at);
    else groups.push({ group, chargers: [at] });
  });
  return groups.map(({ group, chargers: members }, at) => ({
    name: groups.length === 1 ? 'charger' : group !== undefined ? `chargers ${group}` : `charger ${at + 1}`,
    chargers: members,
  }));
}

/** A shared circuit is managed only among chargers that share one: without a group each keeps its own, which is said. */
export function groupFindings({ option, edition }: Job): Finding[] {
  const { loadManagement, chargers } = option;
  if (loadManagement?.kind !== 'shared-circuit' || chargerGroups(chargers).some((group) => group.chargers.length > 1)) {
    return [];
  }
  return [
    findingOf(edition, {
      rule: 'load-management',
      severity: 'caution',
      message:
        'A shared circuit was asked for, but no two chargers name the same group: each keeps a circuit of its own.',
      cites: 'load-management',
      numbers: { maxA: loadManagement.maxA },
    }),
  ];
}
