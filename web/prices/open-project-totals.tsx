import { useQuery } from '@tanstack/react-query';
import { Fragment } from 'react';
import { wholeDollars } from '../../server/drawing/wording.ts';
import { projectEstimate } from '../api.ts';
import { PageLink } from '../navigation.tsx';
import { lastProjectId } from '../parts/last-project.ts';
import { useChanges } from '../project/use-changes.ts';

/** What the project that was open last costs with the book as it is now, and what the last change of a price did to it. */
export function OpenProjectTotals() {
  const id = lastProjectId();
  const estimate = useQuery({
    queryKey: ['estimate', 'project', id],
    queryFn: ({ signal }) => projectEstimate(id ?? '', signal),
    enabled: id !== undefined,
  });
  const changes = useChanges(estimate.data);
  if (id === undefined || !estimate.data) return <p className="screen-status" />;
  const { description, options } = estimate.data;
  return (
    <p className="screen-status open-totals" role="status">
      <PageLink href={`/projects/${id}`}>{description.title}</PageLink>:{' '}
      {options.map(({ id: option, label, totals }) => {
        const change = changes.get(option);
        return (
          <Fragment key={option}>
            <span className="open-total">
              {label} {wholeDollars(totals.totalCents)}
              {change !== undefined && (
                <strong>
                  {' '}
                  {wholeDollars(Math.abs(change))} {change > 0 ? 'dearer' : 'cheaper'}
                </strong>
              )}
            </span>{' '}
          </Fragment>
        );
      })}
    </p>
  );
}
