import type { RequestHandler, Router } from 'express';
import { HttpProblem } from './problems.ts';

type Method = 'GET' | 'PUT' | 'POST' | 'DELETE';
/** A handler of one of our paths: their parameters are an id, a key, a name or a supplier. */
export type Handler = RequestHandler<{ id: string; key: string; name: string; supplier: string }>;
type Handlers = Partial<Record<Method, Handler | Handler[]>>;

/** Puts a resource's methods at its path; every other method is 405 with those that would do (RFC 9110, 15.5.6). */
export function resource(router: Router, path: string, handlers: Handlers): void {
  const route = router.route(path);
  const { GET, PUT, POST, DELETE } = handlers;
  if (GET) route.get(GET);
  if (PUT) route.put(PUT);
  if (POST) route.post(POST);
  if (DELETE) route.delete(DELETE);
  const allowed = [...(GET ? ['GET', 'HEAD'] : []), ...Object.keys(handlers).filter((method) => method !== 'GET')];
  route.all((req) => {
    throw new HttpProblem(405, `${req.method} is not possible here; ${allowed.join(', ')} are.`, {
      Allow: allowed.join(', '),
    });
  });
}
