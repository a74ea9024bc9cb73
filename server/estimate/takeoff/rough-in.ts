import type { PlannedOption } from '../plan-types.ts';
import { boxItself, endBox } from './boxes.ts';
import { type Demands, joined, named, work } from './demand.ts';
import { legsOf, type Way } from './way.ts';

/** What joins conductors: left for later when only raceway and boxes are built. */
const JOINING = /^(?:twist-connectors|split-bolt-.*|splice-.*|terminate-.*)$/;

/** Boxes without what joins conductors in them: the work of a joint becomes that of hanging a box. */
export function withoutConductors({ materials, tasks }: Demands): Demands {
  return {
    materials: materials.filter(({ spec }) => spec.is !== 'other' || !JOINING.test(spec.name)),
    tasks: tasks
      .map((task) => (task.task === 'splice-cable' ? { ...task, task: 'pull-box', unit: 'each' } : task))
      .filter(({ task }) => !JOINING.test(task)),
  };
}

/** Both ends of a raceway that is built ahead: capped and labelled, the far one in a covered box. */
export function cappedEnds({ outlets }: PlannedOption, way: Way): Demands {
  const { run, stretches } = way;
  const legs = legsOf(stretches.slice(-1));
  const because = `both ends of the empty raceway for ${run.name}, until conductors are pulled`;
  const last = stretches.at(-1)?.conduit;
  const inside = !outlets.some((outlet) => outlet.run === run.name && outlet.outdoors);
  const box = endBox(run, last, { inside });
  return joined([
    named({
      name: 'raceway-cap',
      description: 'cap for an empty raceway',
      scope: 'conduit',
      quantity: 2,
      legs,
      because,
    }),
    work({ task: 'cap-and-label', scope: 'conduit', quantity: 2, legs, because }),
    boxItself(box, 1, legs, `the end of the raceway for ${run.name}`),
  ]);
}
