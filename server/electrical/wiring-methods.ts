import type { Citation, Edition, RuleKey } from './citations.ts';
import { cite } from './citations.ts';

/** Wiring methods of a leg. `direct-burial`: USE-2 singles, or an aluminum quad of them. */
export const WIRING_METHODS = ['nm-b', 'ser', 'uf-b', 'direct-burial', 'pvc', 'emt', 'rmc'] as const;
export type WiringMethod = (typeof WIRING_METHODS)[number];

/** What a place is like for a wiring method. Under a deck and on an outside wall it is wet, in a crawlspace damp. */
export const PLACES = [
  'dry-concealed',
  'dry-exposed',
  'damp',
  'wet-above-ground',
  'underground',
  'under-slab',
  'attic',
  'overhead',
] as const;
export type Place = (typeof PLACES)[number];

/** A method and the place it is asked for. */
export interface MethodQuestion {
  method: WiringMethod;
  place: Place;
  /** Around the run, in °C. */
  ambientC?: number | undefined;
  /** Can a car, a mower or a tool reach it? */
  subjectToDamage?: boolean | undefined;
  /** Is the ground under a building? */
  underBuilding?: boolean | undefined;
  /** May nonmetallic-sheathed cable be used at all here? A local rule. */
  nonmetallicCable?: boolean | undefined;
  /** Is steel tubing in soil protected against corrosion in a way that the AHJ approved? */
  corrosionProtected?: boolean | undefined;
  edition: Edition;
}

/** May the method be used there? The rule that decides it, where it stands, and what would do instead. */
export interface MethodAnswer {
  allowed: boolean;
  rule: RuleKey;
  citation: Citation;
  reason: string;
  /** Where it is not allowed. */
  whatWouldDo?: string;
  /** Where it is allowed: what must be seen to. */
  conditions: string[];
  /** Which schedule PVC needs. */
  pvcSchedule?: 40 | 80;
}

interface Verdict {
  allowed: boolean;
  rule: RuleKey;
  reason: string;
  whatWouldDo?: string;
  conditions?: string[];
  pvcSchedule?: 40 | 80;
}

const IN_GROUND: readonly Place[] = ['underground', 'under-slab'];
const INDOORS: readonly Place[] = ['dry-concealed', 'dry-exposed', 'attic'];
const OTHER_IN_GROUND = 'UF-B or USE-2 at 24 in, PVC at 18 in, or rigid metal conduit at 6 in';

/** Above this PVC may not be, in °C. NEC 352.12(D). */
export const PVC_TO_C = 50;

/**
 * Decides whether a wiring method may be used in a place. NEC Articles 334 (NM-B), 338 (SER, USE-2), 340 (UF-B), 352
 * (PVC), 358 (EMT), 344 (RMC), 396 (spans), and 300.5, 300.9 for what is wet inside. Pure and total: what is not
 * allowed comes back with its article and what would do.
 */
export function methodAllowed(question: MethodQuestion): MethodAnswer {
  const verdict = localVerdict(question) ?? VERDICTS[question.method](question);
  const { conditions = [], ...rest } = verdict;
  return { conditions, citation: cite(verdict.rule, question.edition), ...rest };
}

/** Every method that may be used in a place, in the order of the list. */
export function methodsAllowed(question: Omit<MethodQuestion, 'method'>): WiringMethod[] {
  return WIRING_METHODS.filter((method) => methodAllowed({ ...question, method }).allowed);
}

/**
 * Where the site says that nonmetallic cable is not allowed, NM-B is out everywhere, and so are UF-B and SER inside,
 * where 340.10(4) and 338.10(B)(4)(a) lay them as nonmetallic-sheathed cable. The site's own statement: the code
 * leaves it to the authority (90.4). Ours: that the local rule means all three.
 */
function localVerdict({ method, place, nonmetallicCable = true }: MethodQuestion): Verdict | undefined {
  if (nonmetallicCable) return undefined;
  const laidAsNonmetallic = (method === 'uf-b' || method === 'ser') && INDOORS.includes(place);
  if (method !== 'nm-b' && !laidAsNonmetallic) return undefined;
  return {
    allowed: false,
    rule: 'local-amendment',
    reason: 'The local rules that were stated allow no nonmetallic-sheathed cable.',
    whatWouldDo: 'Use EMT, rigid metal conduit or, where allowed, PVC.',
  };
}

const VERDICTS: Record<WiringMethod, (question: MethodQuestion) => Verdict> = {
  'nm-b': nonmetallicCable,
  ser: serviceEntranceCable,
  'uf-b': undergroundFeederCable,
  'direct-burial': directBurial,
  pvc: pvcConduit,
  emt: metallicTubing,
  rmc: rigidConduit,
};

/** NEC 334.10, 334.12, 334.15; 300.5(B) and 300.9: the inside of a raceway there is wet too. */
function nonmetallicCable({ place, subjectToDamage }: MethodQuestion): Verdict {
  if (IN_GROUND.includes(place)) {
    return {
      allowed: false,
      rule: place === 'under-slab' ? 'nm-b-places' : 'wet-interior',
      reason: 'NM-B may not lie in the ground, not even in a raceway: the inside of one underground is a wet place.',
      whatWouldDo: `Use ${OTHER_IN_GROUND}.`,
    };
  }
  if (place === 'damp' || place === 'wet-above-ground') {
    return {
      allowed: false,
      rule: 'nm-b-places',
      reason: `NM-B may not be where it is ${place === 'damp' ? 'damp' : 'wet, nor in a raceway there'}.`,
      whatWouldDo: 'Use UF-B, or wet-rated conductors in PVC, EMT or rigid metal conduit.',
    };
  }
  if (place === 'overhead') return notInSpan('NM-B');
  if (subjectToDamage) {
    return {
      allowed: false,
      rule: 'nm-b-exposed',
      reason: 'NM-B must be protected where it can be damaged.',
      whatWouldDo: 'Use EMT, schedule 80 PVC or rigid metal conduit there.',
    };
  }
  return {
    allowed: true,
    rule: 'nm-b-uses',
    reason: 'NM-B may be used in dry places.',
    conditions: cableConditions(place),
  };
}

/** NEC 338.10(B), 338.12(A). */
function serviceEntranceCable({ place, subjectToDamage }: MethodQuestion): Verdict {
  if (IN_GROUND.includes(place)) {
    return {
      allowed: false,
      rule: 'ser-underground',
      reason: 'SER may not be underground, in a raceway or not.',
      whatWouldDo: `Use ${OTHER_IN_GROUND}.`,
    };
  }
  if (subjectToDamage) {
    return {
      allowed: false,
      rule: 'ser-damage',
      reason: 'SER may not be where it can be damaged.',
      whatWouldDo: 'Use EMT, schedule 80 PVC or rigid metal conduit there.',
    };
  }
  if (place === 'overhead') return inSpan('SER');
  return {
    allowed: true,
    rule: INDOORS.includes(place) ? 'ser-column' : 'ser-uses',
    reason: 'SER may be used inside and on the outside of a building, above ground.',
    conditions: cableConditions(place),
  };
}

/** NEC 340.10, 340.12. */
function undergroundFeederCable({ place, subjectToDamage, underBuilding }: MethodQuestion): Verdict {
  if (IN_GROUND.includes(place)) {
    if (underBuilding) return onlyInRaceway();
    return {
      allowed: true,
      rule: 'uf-b-burial',
      reason: 'UF-B may lie in the ground, below a slab but not in it.',
      conditions: burialConditions(),
    };
  }
  if (subjectToDamage) {
    return {
      allowed: false,
      rule: 'uf-b-damage',
      reason: 'UF-B may not be where it can be damaged.',
      whatWouldDo: 'Use EMT, schedule 80 PVC or rigid metal conduit there.',
    };
  }
  if (place === 'overhead') return inSpan('UF-B');
  const sun = place === 'wet-above-ground' ? ['marked sunlight resistant where the sun reaches it'] : [];
  return {
    allowed: true,
    rule: INDOORS.includes(place) ? 'uf-b-indoors' : 'uf-b-uses',
    reason: 'UF-B may be used in dry, damp and wet places.',
    conditions: [...cableConditions(place), ...sun],
  };
}

/** NEC 338.10(B)(4)(b), 338.12(B). */
function directBurial({ place, underBuilding }: MethodQuestion): Verdict {
  if (IN_GROUND.includes(place)) {
    if (underBuilding) return onlyInRaceway();
    return {
      allowed: true,
      rule: 'use-2-burial',
      reason: 'USE-2 may lie in the ground, below a slab but not in it.',
      conditions: [...burialConditions(), 'all conductors of the circuit and its ground close together'],
    };
  }
  if (place === 'overhead') {
    return {
      allowed: false,
      rule: 'use-2-aerial',
      reason: 'USE-2 may not span the air.',
      whatWouldDo: 'Use SER or UF-B on a messenger, or dig.',
    };
  }
  const inside = INDOORS.includes(place) || place === 'damp';
  return {
    allowed: false,
    rule: inside ? 'use-2-indoors' : 'use-2-above-ground',
    reason: inside
      ? 'USE-2 alone, without RHH or RHW-2 in its marking, is not for wiring inside a building.'
      : 'Above ground USE-2 may only come up, protected, and end in an enclosure outdoors.',
    whatWouldDo:
      'Change to another method in a box outdoors; conductors also marked RHH or RHW-2 may go on in a raceway.',
  };
}

/** NEC 352.10, 352.12. */
function pvcConduit({ place, ambientC = 30, subjectToDamage }: MethodQuestion): Verdict {
  if (ambientC > PVC_TO_C) {
    return {
      allowed: false,
      rule: 'pvc-ambient',
      reason: `It gets ${ambientC} °C there; PVC may be up to ${PVC_TO_C} °C.`,
      whatWouldDo: 'Use EMT or rigid metal conduit.',
    };
  }
  if (place === 'overhead') return notInSpan('PVC');
  const pvcSchedule = subjectToDamage ? 80 : 40;
  return {
    allowed: true,
    rule: subjectToDamage ? 'pvc-damage' : IN_GROUND.includes(place) ? 'pvc-burial' : 'pvc-uses',
    reason: subjectToDamage ? 'PVC may be here in schedule 80.' : 'PVC may be used here.',
    conditions: [...wetConditions(place), ...(place === 'wet-above-ground' ? ['marked sunlight resistant'] : [])],
    pvcSchedule,
  };
}

/** NEC 358.10, 358.12. */
function metallicTubing({ place, corrosionProtected = false }: MethodQuestion): Verdict {
  if (place === 'overhead') return notInSpan('EMT');
  if (IN_GROUND.includes(place) && !corrosionProtected) {
    return {
      allowed: false,
      rule: 'emt-soil',
      reason: 'Steel tubing in soil needs corrosion protection that the authority has approved.',
      whatWouldDo: 'Use PVC or rigid metal conduit, or have the protection approved.',
    };
  }
  const fittings =
    place === 'wet-above-ground' || place === 'damp' ? ['raintight fittings, corrosion-resistant straps'] : [];
  return {
    allowed: true,
    rule: IN_GROUND.includes(place) ? 'emt-soil' : 'emt-uses',
    reason: 'EMT may be used here.',
    conditions: [...wetConditions(place), ...fittings],
  };
}

/** NEC 344.10. */
function rigidConduit({ place }: MethodQuestion): Verdict {
  if (place === 'overhead') return notInSpan('Rigid metal conduit');
  const soil = IN_GROUND.includes(place) ? ['corrosion protection where the soil or the authority asks for it'] : [];
  return {
    allowed: true,
    rule: 'rmc-uses',
    reason: 'Rigid metal conduit may be used here.',
    conditions: [...wetConditions(place), ...soil],
  };
}

function notInSpan(what: string): Verdict {
  return {
    allowed: false,
    rule: 'overhead-span',
    reason: `${what} may not span the air between buildings.`,
    whatWouldDo: 'Use SER or UF-B on a messenger, or dig.',
  };
}

function inSpan(what: string): Verdict {
  return {
    allowed: true,
    rule: 'overhead-span',
    reason: `${what} may span the air on a messenger that carries it.`,
    conditions: ['a messenger wire, dead-ended at both buildings', 'clearance above ground, drive and roof'],
  };
}

function onlyInRaceway(): Verdict {
  return {
    allowed: false,
    rule: 'under-building',
    reason: 'Under a building a cable lies in a raceway that reaches past the walls.',
    whatWouldDo: 'Use PVC or rigid metal conduit there.',
  };
}

function burialConditions(): string[] {
  return [
    'protected by a raceway where it comes up, to 8 ft above grade',
    'bedded without rock, and slack left where the ground moves',
  ];
}

function cableConditions(place: Place): string[] {
  if (place === 'dry-concealed') return ['1-1/4 in from the edge of the framing, or a steel plate'];
  if (place === 'dry-exposed') return ['along the surface or on running boards, guarded where it passes a floor'];
  if (place === 'attic') return ['guard strips near the hatch, or across and along the framing out of reach'];
  return [];
}

function wetConditions(place: Place): string[] {
  const wet = IN_GROUND.includes(place) || place === 'wet-above-ground' || place === 'damp';
  return wet ? ['conductors rated for wet places inside'] : [];
}
