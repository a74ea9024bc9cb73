import { sizeInWords } from '../../electrical/sizes.ts';
import { voltageDrop } from '../../electrical/voltage-drop.ts';
import type { Finding } from '../answer.ts';
import type { ConductorSize } from '../vocabulary.ts';
import { chargerA, is120V } from './charger-load.ts';
import { amperes, findingOf, type Job } from './job.ts';

/** The copper that a circuit usually has that is there, by its breaker in amperes. NEC 240.4(D), Table 310.16 at 60 °C. */
const USUAL_COPPER: readonly (readonly [ocpdA: number, size: ConductorSize])[] = [
  [15, '14'],
  [20, '12'],
  [30, '10'],
  [40, '8'],
  [50, '6'],
];
/** How long a circuit in a house easily is, in feet. Common practice, no source. */
const EXAMPLE_FT = 50;
/** Above it an hour after hour load finds every loose contact, in amperes. Common practice, no source. */
const WEARS_FROM_A = 10;

/** What nobody can see of a circuit that is there: how much voltage is lost on it, and how its receptacle has aged. */
export function foundCircuitFindings(job: Job): Finding[] {
  const { receptacle, chargers } = job.option;
  const [charger] = chargers;
  if (!receptacle || !charger) return [];
  const amps = Math.max(...chargers.map((one) => chargerA(one, job.edition)));
  const voltageV = is120V(charger) ? 120 : 240;
  return [
    unknownDrop(job, { amps, voltageV, circuitA: receptacle.circuitA }),
    ...(receptacle.replace || amps < WEARS_FROM_A ? [] : [wornReceptacle(job, amps)]),
  ];
}

function unknownDrop(
  job: Job,
  { amps, voltageV, circuitA }: { amps: number; voltageV: number; circuitA: number },
): Finding {
  const size = USUAL_COPPER.find(([ocpdA]) => ocpdA >= circuitA)?.[1];
  const unknown = 'How long the circuit is that is there is not known, and so how much voltage is lost on it.';
  const known = { rule: 'voltage-drop', severity: 'note', cites: 'voltage-drop' } as const;
  if (!size) return findingOf(job.edition, { ...known, message: unknown, numbers: { amps } });
  const drop = voltageDrop({
    voltageV,
    currentA: amps,
    lengthFt: EXAMPLE_FT,
    metal: 'copper',
    size,
    method: 'dc-resistance',
  });
  const percent = Math.round(drop.percent * 10_000) / 10_000;
  return findingOf(job.edition, {
    ...known,
    message: `${unknown} For example: over ${EXAMPLE_FT} ft of ${sizeInWords(size)} copper it is ${percent.toFixed(1)} % at ${amperes(amps)}. Where the charger slows down or lights dim, have the circuit looked at.`,
    numbers: { amps, exampleFt: EXAMPLE_FT, exampleDropPercent: percent },
  });
}

function wornReceptacle(job: Job, amps: number): Finding {
  return findingOf(job.edition, {
    rule: 'worn-receptacle',
    severity: 'caution',
    message: `An old or worn receptacle can overheat under ${amperes(amps)} for hours: have it and its connections inspected, or replaced by a sturdy one. Stop charging when plug or plate gets hot.`,
    cites: 'sound-equipment',
    numbers: { amps },
  });
}
