// The boards alone: the part of the report that `cuts` prints, as JSON or as plain lines, with the table of what the same
// pieces cost bought otherwise. Numbers are the report's own.

import type { Solver } from '../fit/types.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import type { Plan, Profile, ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import {
  type Alternative,
  alternatives,
  HUNDREDTHS,
  joinedForLength,
  orderOf,
  placesNothing,
  type StockBudget,
} from '../stock/index.ts';
import { formatLength } from '../units/index.ts';
import { ticksFromMm } from '../units/ticks.ts';
import { derive } from './derive.ts';
import { reportMm, round6 } from './rounding.ts';
import type { Report } from './schema.ts';
import { costWords, orderSums, sumWords, withoutWords } from './stock.ts';
import type { Solved } from './types.ts';

export interface CutsAlternative {
  readonly kind: Alternative['kind'];
  readonly name: string;
  readonly onlyMm: number | null;
  readonly money: number | null;
  readonly boughtMm: number;
  readonly boards: number;
  readonly wasteMm: number;
  readonly unplaced: number;
  readonly moreScarfs: number;
  readonly tooFew: Alternative['tooFew'];
  readonly proved: boolean;
}

export interface Cuts {
  readonly format: 'copewright-cuts';
  readonly version: 1;
  readonly title: string;
  readonly stock: Report['stock'];
  readonly purchase: Report['purchase'];
  readonly totals: Report['totals'];
  /** What is said of boards that the plan holds and that can no longer be held (RULES: ST13). */
  readonly notHeld: readonly string[];
  readonly alternatives: readonly { readonly profile: string; readonly rows: readonly CutsAlternative[] }[];
}

/** A row of the table is a comparison, not what is cut: enough once nothing can cost less. */
const ROW_BUDGET: StockBudget = { costAlone: true };

function withoutScarfs(plan: Plan): Plan {
  const profiles = Object.fromEntries(
    sortedEntries(plan.profiles).map(([id, profile]) => [id, { ...profile, scarf: false }]),
  ) as Record<ProfileId, Profile>;
  return { ...plan, profiles };
}

function row(of: Alternative): CutsAlternative {
  return {
    kind: of.kind,
    name: of.name,
    onlyMm: of.only === null ? null : reportMm(of.only),
    money: of.money === null ? null : round6(of.money / HUNDREDTHS),
    boughtMm: reportMm(of.bought),
    boards: of.boards,
    wasteMm: reportMm(of.waste),
    unplaced: of.unplaced,
    moreScarfs: of.moreScarfs,
    tooFew: of.tooFew,
    proved: of.proved,
  };
}

/** The same without what it would cost bought otherwise: nothing is solved. */
export function plainCutsOf({ plan, report }: Solved): Cuts {
  return {
    format: 'copewright-cuts',
    version: 1,
    title: plan.title,
    stock: report.stock,
    purchase: report.purchase,
    totals: report.totals,
    notHeld: report.findings.filter(({ code }) => code === 'held-loose').map(({ message }) => message),
    alternatives: [],
  };
}

/**
 * Boards, purchase and totals of a solved plan, and per profile the alternatives: as asked, one length alone (walls joined
 * for it where they must be), and no scarfs where that changes the pieces (RULES: ST11). The alternatives are solved here.
 */
export function cutsOf(solved: Solved, solver: Solver, budget: StockBudget = ROW_BUDGET): Cuts {
  const { plan } = solved;
  const whole = derive(withoutScarfs(plan));
  const wholeOrders = orderOf(plan, whole.levels);
  return {
    ...plainCutsOf(solved),
    alternatives: solved.stock.map((own) => {
      const other = wholeOrders.find((order) => order.profileId === own.order.profileId);
      const others =
        other && other.items.length !== own.order.items.length ? [{ name: 'no scarfs', order: other }] : [];
      return {
        profile: own.order.profileId,
        rows: alternatives(own, solver, others, budget, (only) =>
          joinedForLength(plan, solved.levels, own.order.profileId, only, solver, budget),
        ).map(row),
      };
    }),
  };
}

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

/**
 * What is to be said of a row beside its figures: boards that the plan has too few of, scarfs more or fewer, what is left
 * out, and whether it is the least.
 */
export function alternativeRemarks(row: CutsAlternative): string[] {
  const { moreScarfs, tooFew, unplaced, proved } = row;
  if (placesNothing(row)) return ['no piece fits'];
  const scarfs = `${counted(Math.abs(moreScarfs), 'scarf')} ${moreScarfs > 0 ? 'more' : 'fewer'}`;
  return [
    ...(tooFew === null ? [] : [`buys ${counted(tooFew.bought, 'board')}, and ${tooFew.toBeHad} can be had`]),
    ...(moreScarfs === 0 ? [] : [scarfs]),
    ...(unplaced > 0 ? [`${counted(unplaced, 'piece')} not placed`] : proved ? [] : ['not proved least']),
  ];
}

/** Why a row can cost less than the order; nothing where none does. */
export function tableRemarks(rows: readonly CutsAlternative[]): string[] {
  const asked = rows.find(({ kind }) => kind === 'asked');
  const money = asked?.money ?? null;
  const isCheaper = (row: CutsAlternative): boolean =>
    money !== null && asked?.unplaced === 0 && row.money !== null && row.unplaced === 0 && row.money < money;
  return rows.some((row) => isCheaper(row) && row.moreScarfs > 0)
    ? [
        'A wall that the longest stock holds in one piece is not joined to save money; bought so, it is joined.',
      ]
    : [];
}

/** The same as lines for a terminal, lengths in the plan's units. Ends with a line break. */
export function cutsToText(plan: Plan, cuts: Cuts): string {
  const { roundIn, roundMm } = settingsOf(plan);
  const length = (mm: number): string =>
    formatLength(ticksFromMm(mm), { units: plan.units, roundIn, roundMm, style: 'inches' });
  const money = (value: number | null): string => (value === null ? 'no price' : value.toFixed(2));
  const lines: string[] = [cuts.title];
  for (const stock of cuts.stock) {
    const inUnits = (value: number): string => (stock.by === 'money' ? money(value) : length(value));
    lines.push(
      '',
      `${lookup(plan.profiles, stock.profile)?.name ?? stock.profile} (${stock.profile}): ${costWords(stock, inUnits)}`,
    );
    for (const board of stock.boards) {
      const marks = `${board.onHand ? ', on hand' : ''}${board.held ? ', held' : ''}`;
      lines.push(
        `  ${length(board.lengthMm)}${marks}: ${board.pieces.join('  ')}  (off-cut ${length(board.offcutMm)})`,
      );
    }
    if (stock.keep.length > 0) {
      const kept = stock.keep.map((each) => `${each.count} × ${length(each.lengthMm)}`);
      lines.push(`  off-cuts worth keeping: ${kept.join(', ')}`);
    }
    if (stock.unplaced.length > 0) lines.push(`  NOT PLACED: ${stock.unplaced.join('  ')}`);
    for (const line of cuts.purchase.filter((each) => each.profile === stock.profile)) {
      const spare = line.spare > 0 ? `; spare ${line.spare}` : '';
      const price = line.price === null ? '' : ` at ${money(line.price)}`;
      lines.push(`  buy ${line.count} × ${length(line.lengthMm)}${price}: ${money(line.sum)}${spare}`);
    }
    const rows = cuts.alternatives.find((each) => each.profile === stock.profile)?.rows ?? [];
    for (const each of rows.filter((one) => one.kind !== 'asked')) {
      const name = each.onlyMm === null ? each.name : `only ${length(each.onlyMm)}`;
      const figures = [money(each.money), counted(each.boards, 'board'), `waste ${length(each.wasteMm)}`];
      const said = [...(placesNothing(each) ? [] : figures), ...alternativeRemarks(each)];
      lines.push(`  ${name}: ${said.join(', ')}`);
    }
    lines.push(...tableRemarks(rows).map((remark) => `  ${remark}`));
  }
  if (cuts.notHeld.length > 0) lines.push('', ...cuts.notHeld.map((message) => `NOT HELD: ${message}`));
  const sums = orderSums(cuts.purchase);
  if (cuts.stock.length > 0)
    lines.push('', `All boards: ${sumWords(sums.boards)}; for spare: ${sumWords(sums.spare)}`);
  const uncut = withoutWords(cuts.stock);
  if (uncut !== null) lines.push(uncut);
  if (cuts.stock.length === 0) lines.push('', 'No profile in use has a stock list.');
  return `${lines.join('\n')}\n`;
}
