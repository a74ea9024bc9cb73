import type { PlannedOption } from '../plan-types.ts';
import { counted, type Demands, joined, named, shown, work } from './demand.ts';
import { indoorFactors } from './factors.ts';
import { legsOf, type Stretch } from './way.ts';

/** A storey, in feet: one wall drop reaches so far. Common practice, no source. */
const STOREY_FT = 9;
/** One opening for so many feet of finished surface, across the framing and along it. Common practice, no source. */
const OPENING_EVERY_FT = { across: 4, along: 8 };
/** Openings that a quart of touch-up paint covers. Common practice, no source. */
const OPENINGS_PER_QUART = 4;

/** Fishing behind a finished ceiling or wall, and closing the openings that it takes. */
export function fishing(plan: PlannedOption, stretch: Stretch): Demands {
  const { kind, stated, lengthFt, riseFt } = stretch;
  const legs = legsOf([stretch]);
  const ft = lengthFt + riseFt;
  const plaster = plan.description.site.hazards?.includes('plaster') ? ['factor-finished-walls'] : [];
  const factors = [...indoorFactors(plan), ...plaster];
  const across = stated?.across ?? true;
  const isDrop = kind === 'finished-wall' && !across;
  const everyFt = across ? OPENING_EVERY_FT.across : OPENING_EVERY_FT.along;
  const openings = isDrop ? Math.ceil(ft / STOREY_FT) : Math.ceil(ft / everyFt);
  const reason = `${shown(ft)} ft behind a finished ${kind === 'finished-wall' ? 'wall' : 'ceiling'}`;
  const because = `${reason}: ${counted(openings, 'opening')}`;
  return joined([
    isDrop
      ? work({
          task: 'fish-wall-drop',
          scope: 'wire',
          unit: 'drop',
          quantity: openings,
          factors,
          legs,
          because: reason,
        })
      : work({
          task: kind === 'finished-wall' ? 'fish-wall-horizontal' : 'fish-ceiling',
          scope: 'wire',
          unit: 'ft',
          quantity: ft,
          factors,
          legs,
          because: reason,
        }),
    work({
      task: 'access-hole-patch',
      scope: 'restoration',
      unit: 'opening',
      quantity: openings,
      factors,
      legs,
      because,
    }),
    named({
      name: 'drywall-patch-kit',
      description: 'drywall patch materials',
      scope: 'restoration',
      quantity: openings,
      legs,
      because,
    }),
    named({
      name: 'paint-touchup',
      description: 'touch-up primer and paint, quart',
      scope: 'restoration',
      quantity: openings / OPENINGS_PER_QUART,
      legs,
      because: `${because}, a quart for ${OPENINGS_PER_QUART}`,
    }),
  ]);
}
