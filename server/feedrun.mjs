#!/usr/bin/env node
// The launcher that `bin` names. It is committed, so that it is there before the first build, and says what is missing.
import { existsSync } from 'node:fs';

const built = new URL('../dist/server/cli.js', import.meta.url);
if (!existsSync(built)) {
  console.error('Feedrun is not built yet. Run "npm run build" first; "npm start" does it by itself.');
  process.exit(2);
}
const { main } = await import(built.href);
process.exitCode = await main(process.argv.slice(2));
