import { describe, expect, it } from 'vitest';
import { BeyondTableError, RefusedInputError } from '../../server/electrical/errors.ts';
import { problemOf } from '../../server/http/problems.ts';

/** RFC 9110, 15.5.21: 422 for content that is understood and cannot be worked with. */
describe('what a rule of the code book refuses', () => {
  it('is the fault of the request, and names the field', () => {
    const refused = problemOf(new RefusedInputError({ field: 'ocpdA', value: 41, allowed: 'a standard rating' }));
    expect(refused).toMatchObject({ status: 422, errors: [{ path: 'ocpdA' }] });
    expect(refused.detail).toContain('a standard rating');
  });

  it('is said of what lies beyond a table too', () => {
    const beyond = new BeyondTableError({ table: '310.16', field: 'size', value: '700', allowed: 'up to 600 kcmil' });
    expect(problemOf(beyond)).toMatchObject({ status: 422, errors: [{ path: 'size' }] });
  });

  it('leaves what nobody expected a fault of the server that tells nothing of the inside', () => {
    expect(problemOf(new Error('a secret of the inside'))).toMatchObject({ status: 500 });
    expect(problemOf(new Error('a secret of the inside')).detail).not.toContain('secret');
  });
});
