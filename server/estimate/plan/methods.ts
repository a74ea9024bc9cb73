import { type MethodAnswer, methodAllowed } from '../../electrical/wiring-methods.ts';
import type { Finding, RunLeg } from '../answer.ts';
import type { Place, PlacedLeg } from '../plan-types.ts';
import { type LegKind, WIRING_METHODS, type WiringMethod } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';
import { findingOf, type Job } from './job.ts';
import { isRaceway, type LaidPiece } from './wiring.ts';

/** A place of the route, or of a tail, as far as a method's lawfulness goes. */
export type Spot = Pick<PlacedLeg, 'place' | 'ambientC'>;

/** May the method be used at this spot, by the code and by the site's own rules? */
export function allowedAt(job: Job, { place, ambientC }: Spot, method: WiringMethod): MethodAnswer {
  const question = `${method} ${place} ${ambientC}`;
  const known = job.verdicts.get(question);
  if (known) return known;
  const { nonmetallicCable } = job.description.site.code;
  const answer = methodAllowed({ method, place, ambientC, nonmetallicCable, edition: job.edition });
  job.verdicts.set(question, answer);
  return answer;
}

/** Where framing is closed cable is fished; tubing asks for the finish to be opened. Common practice, no source. */
const CLOSED: readonly LegKind[] = ['finished-ceiling', 'finished-wall'];

/** Is the framing of a leg closed, so that tubing could only be laid by opening it? */
export function isClosed(job: Job, { stated }: PlacedLeg): boolean {
  return job.description.site.work === 'retrofit' && CLOSED.includes(stated.kind);
}

/** What an existing raceway's type is as a method. */
const METHOD_OF_TYPE = { 'pvc-40': 'pvc', 'pvc-80': 'pvc', emt: 'emt', rmc: 'rmc' } as const;

/** The method that a leg leaves no choice of: what was asked for there, or the raceway that is there. */
export function fixedMethod({ stated }: PlacedLeg): WiringMethod | undefined {
  if (stated.kind === 'existing-raceway') return METHOD_OF_TYPE[stated.type ?? 'pvc-40'];
  return stated.method === 'auto' ? undefined : stated.method;
}

/** Findings of methods that were asked for: an illegal one is a stop that says what would do, the rest is planned with it. */
export function overrideFindings(job: Job): Finding[] {
  return job.route.flatMap((placed) => {
    const { stated } = placed;
    if (stated.kind === 'existing-raceway' || stated.method === 'auto') return [];
    return [...roughInFinding(job, placed), overrideFinding(job, placed, stated.method)];
  });
}

function overrideFinding(job: Job, placed: PlacedLeg, method: WiringMethod): Finding {
  const { allowed, rule, reason, whatWouldDo = '' } = allowedAt(job, placed, method);
  return findingOf(job.edition, {
    rule: 'method',
    severity: allowed ? 'ok' : 'stop',
    message: allowed ? reason : `${reason} ${whatWouldDo}`.trim(),
    cites: rule,
    numbers: { method, place: placed.place },
    leg: placed.leg,
  });
}

/** Where only the rough-in is built now, conductors are pulled later: a cable cannot be. */
function roughInFinding({ option, edition }: Job, { stated, leg }: PlacedLeg): Finding[] {
  if (!option.roughInOnly || stated.method === 'auto' || isRaceway(stated.method)) return [];
  return [
    findingOf(edition, {
      rule: 'rough-in-raceway',
      severity: 'stop',
      message: `Only the rough-in is built now, and ${stated.method} cannot be pulled in later. Ask for a raceway on this leg.`,
      cites: 'raceway-complete',
      numbers: { method: stated.method },
      leg,
    }),
  ];
}

/** Said of raceway behind a finish. */
const NEEDS_OPENING =
  'Lawful, but stiff raceway does not go through closed framing unless the finish is opened along it.';

/**
 * What can be said of every method that a leg does not take: the rule that forbids it, or that it would be lawful too.
 * @param barred  methods that their place allows and something else forbids, with what
 */
export function otherMethods(
  job: Job,
  { placed, taken, barred = [] }: { placed: PlacedLeg; taken: WiringMethod; barred?: RunLeg['others'] },
): RunLeg['others'] {
  return WIRING_METHODS.filter((method) => method !== taken).map((method) => {
    const { allowed, citation, reason } = allowedAt(job, placed, method);
    if (!allowed) return { method, forbiddenBy: citation, because: reason };
    const bar = barred.find((one) => one.method === method);
    if (bar) return bar;
    const isStiff = isClosed(job, placed) && isRaceway(method);
    return { method, because: isStiff ? NEEDS_OPENING : 'Lawful here as well.' };
  });
}

/** Why a piece has its method, and what must be seen to. */
export function whyHere(job: Job, circuit: Circuit, { placed, method }: LaidPiece): string[] {
  const spot = placed ?? circuit.tail;
  if (!spot) return [];
  const { reason, conditions } = allowedAt(job, spot, method);
  const asked = placed && placed.stated.method === method ? ['asked for on this leg'] : [];
  return [...asked, reason, ...conditions];
}

/** Is a place in the ground, inside, or out of doors? What a family of methods distinguishes. */
export type Setting = 'concealed' | 'exposed' | 'outdoors' | 'ground' | 'span';

/** The setting of a place. */
export function settingOf(place: Place): Setting {
  switch (place) {
    case 'dry-concealed':
    case 'attic':
      return 'concealed';
    case 'dry-exposed':
    case 'damp':
      return 'exposed';
    case 'wet-above-ground':
      return 'outdoors';
    case 'underground':
    case 'under-slab':
      return 'ground';
    case 'overhead':
      return 'span';
  }
}
