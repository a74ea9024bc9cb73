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

/** Does load management hold a charger: one of several that share a circuit, or, by a monitor of the service, any? */
export function holdsBack(
  { kind }: NonNullable<Job['option']['loadManagement']>,
  groups: readonly ChargerGroup[],
  charger: number,
): boolean {
  if (kind === 'service-monitor') return true;
  return groups.some(({ chargers }) => chargers.length > 1 && chargers.includes(charger));
}

/** A circuit for charging, with the amperes that its chargers draw at most together. */
export interface CountedCircuit {
  chargers: SettledCharger[];
  drawnA: number;
  /** Does load management hold these chargers to what they draw together? */
  managed: boolean;
}

/**
 * What the circuits for charging draw at most. Load management of a shared circuit holds only chargers that share one
 * (625.42(A)); chargers without a common group draw in full, whatever it is set to.
 */
export function countedCircuits({ option, edition }: Pick<Job, 'option' | 'edition'>): CountedCircuit[] {
  const { loadManagement } = option;
  return chargerGroups(option.chargers).map((group) => {
    const chargers = group.chargers.flatMap((at) => option.chargers[at] ?? []);
    const allA = chargers.reduce((sum, charger) => sum + chargerA(charger, edition), 0);
    const managed = loadManagement?.kind === 'shared-circuit' && chargers.length > 1;
    return { chargers, drawnA: managed ? Math.min(allA, loadManagement.maxA) : allA, managed };
  });
}

/** What all chargers of an option draw at most together, in amperes; a monitor holds all of them to its setpoint. */
export function drawnTogetherA(charging: Pick<Job, 'option' | 'edition'>): number {
  const { loadManagement } = charging.option;
  const sumA = countedCircuits(charging).reduce((sum, { drawnA }) => sum + drawnA, 0);
  return loadManagement?.kind === 'service-monitor' ? Math.min(sumA, loadManagement.maxA) : sumA;
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
        'A shared circuit was asked for, but no two chargers name the same group: each keeps a circuit of its own and ' +
        'counts in full. Give those that share one the same group, such as "A", or take a monitor of the service.',
      cites: 'load-management',
      numbers: { maxA: loadManagement.maxA },
    }),
  ];
}
