import { ConflictError, NotFoundError } from '../db/errors.ts';
import { ConfigError } from './config.ts';
import { InputError } from './estimate/input-problems.ts';
import { NotJsonError } from './estimate/json-text.ts';
import { UsageError } from './terminal/usage-error.ts';

const HELP = `Feedrun: what it takes and costs to charge a car where it parks at home.

  feedrun serve [--port 4870] [--host 127.0.0.1] [--data DIR]
  feedrun estimate FILE|- [--option ID] [--json] [--pdf FILE [--paper NAME] [--page-size letter|a4]] [--csv FILE]
  feedrun estimate --route "35 joists, 41 lawn-trench clay" --charger 48A [--feed 90A]
                   [--building attached|detached|outdoor] [--service 200A]
  feedrun calc NAME '{json}'|-               one rule or formula alone; without a name: the list of them
  feedrun calc measured-demand --readings FILE ['{json}']     a utility's interval file: CSV, or ESPI (Green Button) XML
  feedrun prices export FILE [--revision N | --on 2026-01-31]
  feedrun prices import FILE [--dry-run] [--remove-missing] [--by NAME] [--why TEXT]
  feedrun prices add-starting [--dry-run] [--by NAME] [--why TEXT]
  feedrun backup FILE
  feedrun restore FILE
  feedrun check                              is the data sound?

Every command takes --data DIR, else FEEDRUN_DATA, else ./data. FILE may be - for standard input or output.
--feed asks for a subpanel of 12 spaces with that feeder; without it there is one dedicated circuit.
Papers: estimate, comparison, budget, inspection, picklist, crew, permit, digging, showing.
Exit code 0: done; 1: the input is wrong; 2: the machine failed.
`;

type Command = (args: string[]) => Promise<void>;
/** Each command loads only what it needs, so that a slip is answered at once. */
const COMMANDS: Readonly<Record<string, Command>> = {
  serve: async (args) => (await import('./terminal/serve-command.ts')).serveCommand(args),
  estimate: async (args) => (await import('./terminal/estimate-command.ts')).estimateCommand(args),
  calc: async (args) => (await import('./terminal/calc-command.ts')).calcCommand(args),
  prices: async (args) => (await import('./terminal/prices-command.ts')).pricesCommand(args),
  backup: async (args) => (await import('./terminal/data-commands.ts')).backupCommand(args),
  restore: async (args) => (await import('./terminal/data-commands.ts')).restoreCommand(args),
  check: async (args) => (await import('./terminal/data-commands.ts')).checkCommand(args),
  help: async () => {
    process.stdout.write(HELP);
  },
};

/**
 * Does what the command line says.
 * @param argv  the words behind the program's name
 * @returns the exit code: 0 done, 1 the input is wrong, 2 the machine failed
 */
export async function main(argv: readonly string[]): Promise<number> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error; // whoever read has read enough
  });
  const [name = 'help', ...args] = argv;
  const asksForHelp = name === '--help' || name === '-h' || args.includes('--help');
  const command = asksForHelp ? COMMANDS.help : COMMANDS[name];
  try {
    if (!command) throw new UsageError(`"${name}" is no command; they are ${Object.keys(COMMANDS).join(', ')}.`);
    await command(args);
    return 0;
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    return isInputError(error) ? 1 : 2;
  }
}

/** What is thrown when the input is wrong, rather than the machine: also a file that is not there, or there already. */
const INPUT_ERRORS = [InputError, NotJsonError, UsageError, ConfigError, NotFoundError, ConflictError];

function isInputError(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const { code } = error as NodeJS.ErrnoException;
  return INPUT_ERRORS.some((known) => error instanceof known) || (code?.startsWith('ERR_PARSE_ARGS') ?? false);
}
