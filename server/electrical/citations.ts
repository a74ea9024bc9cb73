/** Editions of the National Electrical Code that are known here. */
export const EDITIONS = ['2020', '2023', '2026'] as const;
export type Edition = (typeof EDITIONS)[number];

/** Where a rule stands in the code, as data, so that each edition prints its own number. */
export interface Citation {
  code: string;
  edition: Edition;
  article: string;
}

interface Articles {
  articles: Record<Edition, string>;
  /** Was the number read in, or confirmed for, that edition? Where not, it is from memory or carried over from 2023. */
  verified: Record<Edition, boolean>;
}

/** A number from memory, read nowhere. */
const remembered = (article: string): Articles => ({
  ...same(article),
  verified: { '2020': false, '2023': false, '2026': false },
});
/** The same number in 2020 and 2023, carried over to 2026 without having been read there. */
const same = (article: string): Articles => moved(article, article);
/** A number that changed from 2020 to 2023, the later one carried over to 2026. */
const moved = (in2020: string, in2023: string): Articles => carried(in2020, in2023, in2023);
/** A number for each edition, that of 2026 inferred from an article that moved as a whole, not read. */
function carried(in2020: string, in2023: string, in2026: string): Articles {
  return {
    articles: { '2020': in2020, '2023': in2023, '2026': in2026 },
    verified: { '2020': true, '2023': true, '2026': false },
  };
}
/** A number for each edition, each confirmed by at least one source. */
function confirmed(in2020: string, in2023: string, in2026: string): Articles {
  return { ...carried(in2020, in2023, in2026), verified: { '2020': true, '2023': true, '2026': true } };
}

/**
 * Every rule of the code book, and where it stands in the National Electrical Code of 2020, 2023 and 2026. In 2026
 * Article 220 became 120 and Article 750 became 130; which of their sections kept their suffix is verified only where
 * `verified` says so. Articles 625 and 750 of 2023, and all of 2026, are known from articles and training pages, not
 * from the printed code.
 */
export const CITATIONS = {
  // Loads, breakers and conductors
  'continuous-load': same('210.20(A)'),
  'ev-continuous-load': same('625.41'),
  'feeder-continuous-load': remembered('215.3'),
  'standard-ratings': same('240.6(A)'),
  'next-size-up': same('240.4(B)'),
  'small-conductors': same('240.4(D)'),
  'two-ampacity-tests': same('210.19(A)(1)'),
  'feeder-conductors': same('215.2(A)(1)'),
  'terminal-column': same('110.14(C)(1)'),
  'conductor-ampacity': same('Table 310.16'),
  'ambient-correction': moved('Table 310.15(B)(1)', 'Table 310.15(B)(1)(1)'),
  'conductor-adjustment': same('Table 310.15(C)(1)'),
  'derating-neutral': same('310.15(E)(1)'),
  'nm-b-column': same('334.80'),
  'nm-b-sizes': same('334.104'),
  'uf-b-column': same('340.80'),
  'uf-b-sizes': same('340.104'),
  'ser-column': same('338.10(B)(4)(a)'),
  'use-2-column': same('338.10(B)(4)(b)'),
  'rule-83-percent': moved('310.12', '310.12(A)'),
  'voltage-drop': same('210.19'),
  'feeder-voltage-drop': moved('215.2(A)', '215.2(A)(2)'),
  'feeder-neutral-minimum': moved('215.2(A)(2)', '215.2(B)'),
  'neutral-load': carried('220.61', '220.61', '120.61'),
  'dissimilar-metals': same('110.14'),
  'terminal-markings': remembered('110.3(B)'),
  // Read as quoted of other editions, not of these.
  'conductor-protection': remembered('240.4'),
  'conductor-properties': same('Chapter 9 Table 8'),
  'conductor-impedance': same('Chapter 9 Table 9'),
  // Grounding
  'equipment-ground': same('250.122(A)'),
  'equipment-ground-upsized': same('250.122(B)'),
  'equipment-ground-required': remembered('250.114'),
  'electrode-conductor': same('250.66'),
  'electrode-conductor-rod': same('250.66(A)'),
  'electrode-conductor-concrete': same('250.66(B)'),
  'electrode-conductor-protected': same('250.64(B)'),
  'electrode-conductor-aluminum': remembered('250.64(A)'),
  'two-rods': same('250.53(A)(2)'),
  'electrode-separate-building': same('250.32(A)'),
  'neutral-separate-building': same('250.32(B)(1)'),
  'electrode-conductor-size': same('250.32(E)'),
  'neutral-beyond-service': remembered('250.142(B)'),
  // Raceways and cables
  'conduit-fill': same('Chapter 9 Table 1'),
  'conduit-nipple': same('Chapter 9 note 4'),
  'cable-in-conduit': same('Chapter 9 note 9'),
  'bend-radius': same('Chapter 9 Table 2'),
  'bends-pvc': moved('352.26', '352.24(B)'),
  'bends-emt': moved('358.26', '358.24(B)'),
  'bends-rmc': moved('344.26', '344.24(B)'),
  'pvc-expansion': moved('352.44', '352.44(A)'),
  movement: moved('300.5(J)', '352.44(B)'),
  'support-pvc': moved('Table 352.30', 'Table 352.30(B)'),
  'support-emt': moved('358.30(A)', '358.30(A)(1)'),
  'support-rmc': moved('Table 344.30(B)(2)', 'Table 344.30(B)'),
  'support-nm-b': same('334.30'),
  'support-ser': same('338.10(B)(4)(a)'),
  'support-ser-outdoors': same('338.10(B)(4)(b)'),
  'support-uf-b': same('340.10(4)'),
  'cable-bend-nm-b': same('334.24'),
  'cable-bend-ser': same('338.24'),
  'cable-bend-uf-b': same('340.24'),
  'bored-hole': same('300.4(A)(1)'),
  'parallel-framing': same('300.4(D)'),
  'box-fill': same('314.16(B)'),
  'pull-box': same('314.28(A)'),
  'free-conductor': same('300.14'),
  'raceway-complete': remembered('300.18(A)'),
  // Where a wiring method may go
  cover: moved('Table 300.5', 'Table 300.5(A)'),
  'cover-gfci-column': moved('Table 300.5 column 4', 'Table 300.5(A) column 4'),
  'wet-interior': same('300.5(B)'),
  'wet-interior-above-ground': same('300.9'),
  'wet-conductors': same('310.10(C)'),
  'under-building': same('300.5(C)'),
  'emerging-from-grade': same('300.5(D)(1)'),
  'raceway-damage': same('300.5(D)(4)'),
  'same-trench': same('300.5(I)'),
  backfill: same('300.5(F)'),
  seal: same('300.5(G)'),
  'solid-rock': moved('Table 300.5 note 5', 'Table 300.5(A) note 5'),
  'warning-ribbon': same('300.5(D)(3)'),
  'nm-b-uses': same('334.10'),
  'nm-b-places': same('334.12(B)(4)'),
  'nm-b-concrete': same('334.12(A)(9)'),
  'nm-b-exposed': remembered('334.15(B)'),
  'basement-joists': same('334.15(C)'),
  'nm-b-attic': remembered('334.23'),
  'ser-uses': same('338.10(B)'),
  'ser-underground': same('338.12(A)(2)'),
  'ser-damage': remembered('338.12(A)(1)'),
  'use-2-indoors': same('338.12(B)(1)'),
  'use-2-above-ground': remembered('338.12(B)(2)'),
  'use-2-aerial': remembered('338.12(B)(3)'),
  'use-2-burial': same('338.10(B)(4)(b)'),
  'uf-b-uses': same('340.10'),
  'uf-b-burial': remembered('340.10(1)'),
  'uf-b-indoors': same('340.10(4)'),
  'uf-b-concrete': remembered('340.12(8)'),
  'uf-b-sunlight': same('340.12(9)'),
  'uf-b-damage': same('340.12(10)'),
  'pvc-uses': same('352.10'),
  'pvc-burial': same('352.10(G)'),
  'pvc-damage': moved('352.10(F)', '352.10(K)'),
  'pvc-ambient': same('352.12(D)'),
  'emt-uses': same('358.10'),
  'emt-soil': same('358.10(B)'),
  'emt-damage': remembered('358.12(1)'),
  'rmc-uses': remembered('344.10'),
  // Read as quoted of the edition of 2011; that later ones keep the letter is from memory.
  'rmc-soil': remembered('344.10(B)'),
  'knob-and-tube': remembered('394.12'),
  'overhead-span': remembered('396.10'),
  'overhead-clearance': remembered('225.18'),
  'overhead-roof-clearance': remembered('225.19(A)'),
  'local-amendment': remembered('90.4'),
  // Charging
  'individual-branch-circuit': same('625.40'),
  'adjustable-rating': moved('625.42', '625.42(B)'),
  'load-management': moved('625.42', '625.42(A)'),
  'energy-management': confirmed('750.30', '750.30', '130.30'),
  'signal-separation': remembered('725.136(A)'),
  'plug-or-hardwired': same('625.44'),
  'receptacle-2026': same('625.44'),
  'single-receptacle-rating': same('210.21(B)(1)'),
  'receptacle-load': same('210.21(B)(2)'),
  'receptacle-rating': same('210.21(B)(3)'),
  'cord-and-plug-80-percent': moved('210.23(A)(1)', '210.23(B)(1)'),
  'branch-circuit-10a': same('210.23'),
  'gfci-ev-receptacle': same('625.54'),
  'gfci-dwelling-receptacle': same('210.8(A)'),
  'outdoor-ground-fault': same('210.8(F)'),
  'charger-disconnect': confirmed('625.43', '625.43', '625.43(A)'),
  'qualified-person': confirmed('110.3(B)', '110.3(B)', '625.4'),
  ventilation: same('625.52(A)'),
  'coupler-height': same('625.50'),
  'cord-to-receptacle': same('625.17(A)(3)'),
  'cable-to-car': same('625.17(C)'),
  'wet-receptacle-15-20': same('406.9(B)(1)'),
  'wet-receptacle-other': moved('406.9(B)(2)(a)', '625.56'),
  'damp-receptacle': same('406.9(A)'),
  // Buildings, panels and services
  'one-supply': same('225.30'),
  'one-supply-ev-exception': same('225.30(A)(7)'),
  'one-supply-different-voltage': same('225.30(E)'),
  'building-disconnect': moved('225.31', '225.31(A)'),
  'building-disconnect-place': moved('225.32', '225.31(B)'),
  'building-disconnect-count': same('225.33'),
  'building-disconnect-rating': same('225.39'),
  'garage-receptacles': remembered('210.52(G)'),
  'garage-circuit': remembered('210.11(C)(4)'),
  'garage-light': remembered('210.70(A)(2)'),
  'panel-protection': same('408.36'),
  'backfed-breaker': same('408.36(D)'),
  // Read as quoted of other editions, not of these: breakers that a panel is made for, more than six main switches, splices in a cabinet.
  'panel-places': remembered('408.54'),
  'six-disconnects': remembered('230.71'),
  'panel-as-box': remembered('312.8'),
  'listed-use': remembered('110.3(B)'),
  // Read as quoted in articles on 2020 and 2023.
  'sound-equipment': same('110.12(B)'),
  'service-disconnect-rating': same('230.79(C)'),
  'meter-socket': remembered('230.66(B)'),
  'emergency-disconnect': same('230.85'),
  'surge-protection': same('230.67'),
  'working-space': same('110.26(A)'),
  'backfed-bus': remembered('705.12(B)'),
  'handle-height': same('404.8(A)'),
  // Load calculations
  'load-standard': carried('220 Part III', '220 Part III', '120 Part III'),
  'standard-lighting': carried('220.14(J)', '220.41', '120.41'),
  'standard-lighting-demand': carried('Table 220.42', 'Table 220.45', 'Table 120.45'),
  'standard-circuits': carried('220.52', '220.52', '120.52'),
  'standard-appliances': carried('220.53', '220.53', '120.53'),
  'standard-dryer': carried('220.54', '220.54', '120.54'),
  'standard-range': carried('Table 220.55', 'Table 220.55', 'Table 120.55'),
  'standard-motors': carried('220.50', '220.50', '120.50'),
  'standard-heating': carried('220.51', '220.51', '120.51'),
  noncoincident: carried('220.60', '220.60', '120.60'),
  'optional-new-dwelling': confirmed('220.82', '220.82', '120.82'),
  'optional-existing-a': carried('220.83(A)', '220.83(A)', '120.83(A)'),
  'optional-existing-b': carried('220.83(B)', '220.83(B)', '120.83(B)'),
  'measured-demand': carried('220.87', '220.87', '120.87'),
  'evse-load': confirmed('625.42', '220.57', '120.57'),
  'managed-load': confirmed('750.30', '220.70', '120.7'),
} as const satisfies Record<string, Articles>;

/** Names of the rules that can be cited. */
export type RuleKey = keyof typeof CITATIONS;

/** Where a rule stands in an edition of the code. */
export function cite(rule: RuleKey, edition: Edition): Citation {
  return { code: 'NEC', edition, article: CITATIONS[rule].articles[edition] };
}
