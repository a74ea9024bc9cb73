import { number } from '../../server/drawing/wording.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';

/** What each charger gives its car, and what holds it to that. */
export function ChargingPart({ charging }: { charging: EstimateOption['charging'] }) {
  if (!charging || charging.perCharger.length === 0) return null;
  const chargers = charging.perCharger.map((each, at) => ({ ...each, name: `charger ${at + 1}` }));
  return (
    <section className="detail-part">
      <h2>What each charger gives</h2>
      <table className="chargers">
        <thead>
          <tr>
            <th scope="col">Charger</th>
            <th scope="col" className="figure">
              Power
            </th>
            <th scope="col" className="figure">
              Miles an hour
            </th>
            <th scope="col" className="figure wide-only">
              For the day’s miles
            </th>
            <th scope="col">Held to it by</th>
          </tr>
        </thead>
        <tbody>
          {chargers.map(({ name, kW, milesPerHour, hoursForDailyMiles, coversDailyMiles, limitedBy }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td className="figure">{number(kW, 1)} kW</td>
              <td className="figure">{number(milesPerHour, 0)}</td>
              <td className="figure wide-only">
                {hoursForDailyMiles !== undefined && `${number(hoursForDailyMiles, 1)} h`}
                {coversDailyMiles === false && ', longer than parked'}
              </td>
              <td>{limitedBy}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
