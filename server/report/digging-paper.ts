import type { EstimateOption, Finding } from '../estimate/answer.ts';
import { type Leg, legField } from '../estimate/description/leg.ts';
import { routeOf } from '../estimate/description.ts';
import { likelyFt } from '../estimate/leg-costs.ts';
import { isDitch } from '../estimate/vocabulary.ts';
import { drawRouteSection } from './estimate-paper.ts';
import { findingInWords } from './finding-words.ts';
import { drawNotices, type PaperInput, plainSheet } from './paper.ts';
import { drawPassages } from './passages/draw-passage.ts';
import type { Passage } from './passages/passage.ts';
import {
  byWeight,
  capital,
  counted,
  feet,
  guessedFeet,
  LEG_WORDS,
  legNumbers,
  number,
  sentence,
  taskInPlace,
  wiringMethod,
} from './wording.ts';

const LINES = {
  gas: 'gas line',
  water: 'water line',
  sewer: 'sewer',
  irrigation: 'irrigation line',
  communications: 'communications line',
  'private-electric': 'private electric line',
  'tree-root-zone': 'root zone of a tree',
} as const;

/** For those who dig: what is opened where and how deep, what lies across it, and what is called before. */
export async function diggingPaper(input: PaperInput): Promise<Buffer> {
  const { estimate, option, stated } = input;
  const sheet = plainSheet(input, { subject: `Digging: ${option.label}` });
  const route = routeOf(estimate.description, stated);
  const dug = route.flatMap((leg, at) => (isDug(leg) ? [at] : []));
  sheet.paragraph(
    dug.length === 0
      ? 'Nothing is dug or bored for this option.'
      : // The breadth of the zone is from memory; each state sets its own.
        'Call 811 first, wait for the marks, and dig by hand within the zone beside them that your state sets, often 18 to 24 in on each side. A line that nobody marked may be there all the same.',
  );
  if (dug.length > 0) {
    drawRouteSection(sheet, input, { isWithoutMoney: true });
    drawPassages(sheet, [
      ...ditches(option, route),
      ...whatIsOpened(option, route, dug),
      ...crossed(route, dug),
      ...digWork(option, dug),
      ...watch(option, dug),
    ]);
  }
  drawNotices(sheet, estimate);
  return sheet.finish();
}

function isDug({ kind }: Leg): boolean {
  return isDitch(kind) || kind === 'bore';
}

/** The deepest cover of the runs that lie in a leg, in inches. */
function coverIn({ runs }: EstimateOption, at: number): number | undefined {
  const covers = runs.flatMap(({ legs }) =>
    legs.flatMap(({ leg, coverIn: cover }) => (leg === at && cover !== undefined ? [cover] : [])),
  );
  return covers.length > 0 ? Math.max(...covers) : undefined;
}

/** Legs that lie in one ditch, from end to end. */
function ditches(option: EstimateOption, route: readonly Leg[]): Passage[] {
  const groups: number[][] = [];
  route.forEach((leg, at) => {
    if (!isDitch(leg.kind)) return;
    const last = groups.at(-1);
    if (last?.at(-1) === at - 1) last.push(at);
    else groups.push([at]);
  });
  if (groups.length === 0) return [];
  return [
    {
      title: groups.length === 1 ? 'The ditch' : 'The ditches',
      list: groups.map((legs) => {
        const lengthFt = legs.reduce((sum, at) => sum + likelyFt(route[at] ?? { lengthFt: 0 }), 0);
        const covers = legs.flatMap((at) => coverIn(option, at) ?? []);
        const deep =
          covers.length > 0
            ? `, ${number(Math.max(...covers))} in of cover from the top of what is laid to the finished surface`
            : '';
        return `${legs.length === 1 ? 'Leg' : 'Legs'} ${legNumbers(legs)}: ${feet(lengthFt)} in one ditch${deep}. ${whatLies(option, legs)}`;
      }),
    },
  ];
}

function whatLies({ runs }: EstimateOption, legs: readonly number[]): string {
  const laid = runs.flatMap((run) => {
    const here = run.legs.filter(({ leg }) => legs.includes(leg));
    return here.length > 0 ? [`${run.name} in ${[...new Set(here.map(wiringMethod))].join(', ')}`] : [];
  });
  return laid.length > 0 ? `In it: ${laid.join('; ')}.` : '';
}

function whatIsOpened(option: EstimateOption, route: readonly Leg[], dug: readonly number[]): Passage[] {
  return [
    {
      title: 'What is opened, leg by leg',
      columns: [
        { head: 'Leg', widthPt: 92 },
        { head: 'Length', widthPt: 84 },
        { head: 'Cover', widthPt: 44, align: 'right' },
        { head: 'Ground and surface', share: 1 },
        { head: 'Across it', share: 0.9 },
      ],
      rows: dug.flatMap((at) => {
        const leg = route[at];
        if (!leg) return [];
        const cover = coverIn(option, at);
        return [
          {
            cells: [
              `${at + 1}  ${LEG_WORDS[leg.kind]}`,
              guessedFeet(leg.lengthFt),
              cover === undefined ? 'not planned' : `${number(cover)} in`,
              groundInWords(leg),
              crossingsInWords(leg) || 'nothing stated',
            ],
          },
        ];
      }),
    },
  ];
}

const STEEL = { none: 'no steel in it', mesh: 'mesh in it', rebar: 'bars in it' } as const;

function groundInWords(leg: Leg): string {
  const soil = legField(leg, 'soil');
  const soils = Array.isArray(soil) ? soil : [soil];
  const slab = leg.kind === 'concrete-cut' || leg.kind === 'asphalt-cut';
  const steel = leg.reinforcement;
  return [
    soils.join(', '),
    ...(slab
      ? [`cut ${number(legField(leg, 'widthIn'))} in wide, ${number(legField(leg, 'thicknessIn'))} in thick`]
      : []),
    ...(leg.kind === 'concrete-cut' && steel !== undefined
      ? [steel === null ? 'steel in it not known' : STEEL[steel]]
      : []),
    ...(legField(leg, 'traffic') === 'vehicle' ? ['cars drive over it'] : []),
  ].join('; ');
}

function crossingsInWords({ crossings = [] }: Leg): string {
  return crossings.map(({ what, count }) => counted(count, LINES[what])).join(', ');
}

/** Each kind of line or root once, with how many there are and in which legs. */
function crossed(route: readonly Leg[], dug: readonly number[]): Passage[] {
  const all = dug.flatMap((at) => (route[at]?.crossings ?? []).map((crossing) => ({ at, ...crossing })));
  if (all.length === 0) return [];
  const kinds = [...new Set(all.map(({ what }) => what))];
  const own = all.some(({ what }) => what === 'irrigation' || what === 'private-electric');
  return [
    {
      title: 'What lies across it',
      list: [
        ...kinds.map((kind) => {
          const here = all.filter(({ what }) => what === kind);
          const legs = here.map(({ at }) => at);
          const count = here.reduce((sum, crossing) => sum + crossing.count, 0);
          return `${capital(counted(count, LINES[kind]))}, ${new Set(legs).size === 1 ? 'leg' : 'legs'} ${legNumbers(legs)}.`;
        }),
        ...(own
          ? ['Own lines beyond the meter are not marked by 811: have them located, or expose them by hand.']
          : []),
      ],
    },
  ];
}

/** The tasks of digging, cutting and making good, with the depth and the tool that they were reckoned for. */
function digWork({ labor, lines }: EstimateOption, dug: readonly number[]): Passage[] {
  const lineOf = new Map(lines.filter((line) => line.class === 'labor').map((line) => [line.key, line]));
  const scopes: readonly string[] = ['trench', 'hard-surface', 'restoration'];
  const tasks = labor.tasks.filter(
    ({ key, legs }) => scopes.includes(lineOf.get(key)?.scope ?? '') && legs.some((at) => dug.includes(at)),
  );
  if (tasks.length === 0) return [];
  return [
    {
      title: 'Work in the ground',
      columns: [
        { head: 'Task', share: 1 },
        { head: 'Legs', widthPt: 36 },
        { head: 'Quantity', widthPt: 66, align: 'right' },
        { head: 'Hours', widthPt: 36, align: 'right' },
        { head: 'Reckoned for', share: 1.5 },
      ],
      rows: tasks.map(({ key, legs, quantity, inPlace, unit, hours, because }) => ({
        cells: [
          capital(lineOf.get(key)?.description ?? key),
          legNumbers(legs),
          taskInPlace({ quantity, inPlace, unit }),
          number(hours, 1),
          because.map(sentence).join(' '),
        ],
      })),
    },
  ];
}

/** What was found about these legs that one must know before digging. */
function watch({ findings }: EstimateOption, dug: readonly number[]): Passage[] {
  const here = byWeight(findings).filter(
    (finding: Finding) => finding.leg !== undefined && dug.includes(finding.leg) && finding.severity !== 'ok',
  );
  return here.length > 0 ? [{ title: 'To watch', list: here.map((finding) => findingInWords(finding)) }] : [];
}
