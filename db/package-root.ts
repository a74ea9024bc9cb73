import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of package.json, above this file: the same for the sources and for what is compiled into dist/. */
function findPackageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const parent = dirname(folder);
    if (parent === folder) throw new Error(`No package.json lies above ${fileURLToPath(import.meta.url)}.`);
    folder = parent;
  }
  return folder;
}

/** Absolute path of the folder that holds package.json, migrations and starting prices. */
export const packageRoot: string = findPackageRoot();
