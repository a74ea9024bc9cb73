import { conductorSize, counted, number } from '../../server/drawing/wording.ts';
import type { EstimateOption, Run } from '../../server/estimate/answer.ts';
import { legNames } from '../parts/leg-names.ts';
import { plain } from '../parts/words.ts';

/** Every wire to be cut, run by run. */
export function WireList({ runs }: { runs: readonly Run[] }) {
  return (
    <section className="wire-part">
      <h2>Wire to cut</h2>
      <table className="wires">
        <thead>
          <tr>
            <th scope="col">Run</th>
            <th scope="col">Wire</th>
            <th scope="col">For</th>
            <th scope="col" className="figure">
              Pieces
            </th>
            <th scope="col" className="figure">
              Each, ft
            </th>
            <th scope="col">Legs</th>
          </tr>
        </thead>
        <tbody>
          {runs.flatMap((run) =>
            run.wire.map(({ use, metal, size, insulation, count, cutLengthFt, legs }) => (
              <tr key={`${run.name} ${use} ${insulation} ${size} ${cutLengthFt} ${legs.join()}`}>
                <td>{run.name}</td>
                <td>
                  {conductorSize(size)} {insulation.toUpperCase()}, {metal}
                </td>
                <td>{use}</td>
                <td className="figure">{count}</td>
                <td className="figure">{number(cutLengthFt, 1)}</td>
                <td>{legs.length > 0 && legNames(legs)}</td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </section>
  );
}

/** Hours by task, who comes when, and what follows what. */
export function LaborTables({ option }: { option: EstimateOption }) {
  const { labor, schedule } = option;
  return (
    <section className="labor-part" id="labor">
      <h2>
        Labor: {number(labor.hours, 1)} hours, {counted(labor.workingDays, 'working day')}
        {labor.ownerHours > 0 && `, ${number(labor.ownerHours, 1)} hours of them the owner’s`}
      </h2>
      <Tasks option={option} />
      <Visits visits={labor.visits} />
      <Schedule schedule={schedule} />
    </section>
  );
}

function Tasks({ option: { labor, lines } }: { option: EstimateOption }) {
  // Hours of the owner have no line that describes them: then the key's own words.
  const words = new Map(lines.map(({ key, description }) => [key, description]));
  return (
    <table className="labor">
      <thead>
        <tr>
          <th scope="col">Task</th>
          <th scope="col" className="figure">
            Quantity
          </th>
          <th scope="col" className="figure wide-only">
            Hours each
          </th>
          <th scope="col" className="figure wide-only">
            Factor
          </th>
          <th scope="col" className="figure">
            Hours
          </th>
        </tr>
      </thead>
      <tbody>
        {labor.tasks.map((task) => (
          <tr key={[task.key, task.quantity, ...task.legs].join(' ')}>
            <th scope="row">
              <details className="reason">
                <summary>{words.get(task.key) ?? plain(task.key)}</summary>
                {task.because.map((reason) => (
                  <p key={reason}>{reason}</p>
                ))}
                {task.legs.length > 0 && <p>{legNames(task.legs)}</p>}
              </details>
            </th>
            <td className="figure">
              {number(task.quantity)} {task.unit}
            </td>
            <td className="figure wide-only">{number(task.hoursPerUnit, 4)}</td>
            <td className="figure wide-only">{number(task.factor, 4)}</td>
            <td className="figure">{number(task.hours)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Visits({ visits }: { visits: EstimateOption['labor']['visits'] }) {
  if (visits.length === 0) return null;
  return (
    <>
      <h3>Visits</h3>
      <ul className="plain-list">
        {visits.map(({ why, days, because }) => (
          <li key={why}>
            {plain(why)}, {counted(days, 'day')}
            {because.length > 0 && <small> {because.join('; ')}</small>}
          </li>
        ))}
      </ul>
    </>
  );
}

function Schedule({ schedule }: Pick<EstimateOption, 'schedule'>) {
  if (schedule.length === 0) return null;
  return (
    <>
      <h3>What follows what</h3>
      <ol className="plain-list">
        {schedule.map(({ step, workDays, waitDays, because }) => (
          <li key={step}>
            {plain(step)}: {workDays > 0 && counted(workDays, 'day of work', 'days of work')}
            {workDays > 0 && waitDays > 0 && ', '}
            {waitDays > 0 && counted(waitDays, 'day of waiting', 'days of waiting')}
            {because.length > 0 && <small> {because.join('; ')}</small>}
          </li>
        ))}
      </ol>
    </>
  );
}
