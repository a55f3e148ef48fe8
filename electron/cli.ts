// The command line: a plan file in, a report, a PDF or tables out. Standard output carries the result and nothing else;
// messages go to standard error. Exit 0 done, 1 `check` found something that stops the job, 2 input that cannot be used.

import { dirname } from 'node:path';
import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { planJsonSchemaText } from '../core/plan/index.ts';
import { cutsToText, reportJsonSchemaText, reportToJson, reportToText } from '../core/report/index.ts';
import { csvFiles, SHEET_SIZES, type SheetSize } from '../core/sheets/index.ts';
import { cutPlan, pdfOf, solvePlan } from './services/export.ts';
import { REAL_CALLS } from './services/file-calls.ts';
import { FileProblem, fileProblem } from './services/file-problem.ts';
import { openPlanFile, PlanProblem } from './services/plan-file.ts';
import { mustLeadToNoPlan, mustNotBe } from './services/same-file.ts';
import { sweep } from './services/temporary.ts';
import { writeAllInto } from './services/write-all.ts';
import { writeWhole } from './services/write-whole.ts';

const EXIT_STOP = 1;
const EXIT_INPUT = 2;

/** What was asked for cannot be made; the message is the sentence to say. */
class Refused extends Error {}

function print(text: string): void {
  process.stdout.write(text);
}

function say(text: string): void {
  process.stderr.write(`${text}\n`);
}

function calendarDate(text: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  const date = parts ? new Date(`${text}T00:00:00Z`) : null;
  if (!date || Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== text) {
    throw new InvalidArgumentError('write a date as year-month-day, such as 2026-01-31.');
  }
  return text;
}

/** A shell gives an empty word for a variable that is not set. */
function notEmpty(text: string): string {
  if (text === '') throw new InvalidArgumentError('it is empty; write a name.');
  return text;
}

function fileName(text: string): string {
  if (/[/\\]$/.test(text))
    throw new InvalidArgumentError('it ends as a folder does; write the name of a file.');
  return notEmpty(text);
}

const planFile = (words?: string): Argument => new Argument('<plan>', words).argParser(notEmpty);

function today(): string {
  const now = new Date();
  return [
    now.getFullYear(),
    String(now.getMonth() + 1).padStart(2, '0'),
    String(now.getDate()).padStart(2, '0'),
  ].join('-');
}

async function report(path: string, options: { json?: boolean }): Promise<void> {
  const solved = await solvePlan(await openPlanFile(path));
  print(options.json ? reportToJson(solved.report) : reportToText(solved));
}

async function check(path: string): Promise<void> {
  const { findings } = (await solvePlan(await openPlanFile(path))).report;
  for (const finding of findings) print(`${finding.severity}  ${finding.code}  ${finding.message}\n`);
  if (findings.length === 0) print('nothing found\n');
  if (findings.some((finding) => finding.severity === 'stop')) process.exitCode = EXIT_STOP;
}

async function pdf(
  path: string,
  options: { output: string; sheet: SheetSize; scale?: string; date?: string },
): Promise<void> {
  await mustNotBe(path, options.output);
  await mustLeadToNoPlan(options.output);
  const solved = await solvePlan(await openPlanFile(path));
  const { sheet, scale, date = today() } = options;
  const made = await pdfOf(solved, { sheet, scale, date });
  if (!made.ok) throw new Refused(made.message);
  await sweep(dirname(options.output), REAL_CALLS, Date);
  await writeWhole(options.output, made.bytes);
  if (made.note !== null) say(made.note);
}

async function csv(path: string, options: { output: string }): Promise<void> {
  const solved = await solvePlan(await openPlanFile(path));
  const files = Object.entries(csvFiles(solved.report)).map(([name, text]) => ({
    name,
    bytes: new TextEncoder().encode(text),
  }));
  await sweep(options.output, REAL_CALLS, Date);
  await writeAllInto(options.output, files, {
    look: async (file) => {
      await mustNotBe(path, file);
      await mustLeadToNoPlan(file);
    },
  });
}

async function cuts(path: string, options: { json?: boolean }): Promise<void> {
  const { solved, cuts: cut } = await cutPlan(await openPlanFile(path));
  print(options.json ? `${JSON.stringify(cut, null, 2)}\n` : cutsToText(solved.plan, cut));
}

function schema(which: string | undefined): void {
  print(which === 'report' ? reportJsonSchemaText() : planJsonSchemaText());
}

function program(): Command {
  const sheets = Object.keys(SHEET_SIZES);
  const copewright = new Command('copewright')
    .description('From a plan file to what a trim crew needs.')
    .exitOverride()
    .configureOutput({ writeErr: (text) => process.stderr.write(text) });
  copewright
    .command('report')
    .addArgument(planFile('a plan file (.copewright.json)'))
    .option('--json', 'print the report as JSON')
    .description('print the report')
    .action(report);
  copewright
    .command('check')
    .addArgument(planFile())
    .description('print the findings; exit 1 if any of them stops the job')
    .action(check);
  copewright
    .command('pdf')
    .addArgument(planFile())
    .requiredOption('-o, --output <file>', 'where to write the PDF', fileName)
    .addOption(new Option('--sheet <size>', 'sheet size').choices(sheets).default('letter'))
    .option('--scale <scale>', 'scale of the floor plans, such as 1/4 (inches to the foot) or 1:50 (as fits)')
    .option('--date <date>', 'date printed on the sheets, such as 2026-01-31 (today)', calendarDate)
    .description("write the crew's PDF")
    .action(pdf);
  copewright
    .command('csv')
    .addArgument(planFile())
    .requiredOption('-o, --output <folder>', 'folder for the tables', notEmpty)
    .description('write the tables of boards, casings, corners, findings, cuts and order')
    .action(csv);
  copewright
    .command('cuts')
    .addArgument(planFile())
    .option('--json', 'print the boards as JSON')
    .description('print how the boards are cut from stock, what to buy, and what it costs otherwise')
    .action(cuts);
  copewright
    .command('schema')
    .argument('[which]', 'plan or report', (value: string) => {
      if (value !== 'plan' && value !== 'report') throw new InvalidArgumentError('say plan or report.');
      return value;
    })
    .description('print the JSON Schema of the plan file or of the report')
    .action(schema);
  return copewright;
}

/** Runs the command line; sets `process.exitCode`, never exits. */
export async function main(words: readonly string[]): Promise<void> {
  try {
    await program().parseAsync(words, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? 0 : EXIT_INPUT;
    } else if (error instanceof FileProblem || error instanceof PlanProblem || error instanceof Refused) {
      say(error.message);
      process.exitCode = EXIT_INPUT;
    } else {
      throw error;
    }
  }
}

// Who reads it may have enough, as `head` has; a disk that is full is told.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return;
  say(fileProblem('Standard output', error, 'write').message);
  process.exitCode = EXIT_INPUT;
});

// Where nothing can be said any more, the exit code still tells.
process.stderr.on('error', () => undefined);

await main(process.argv.slice(2));
