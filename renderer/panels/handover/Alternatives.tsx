// The carpenter's paired question: what if the yard only carries this length, what does it cost to insist on no scarfs.
// One row each, with what it is against the order as it stands.

import { alternativeRemarks, tableRemarks } from '../../../core/report/index.ts';
import { placesNothing } from '../../../core/stock/index.ts';
import { type Head, Heads } from '../kit/Heads.tsx';
import type { HandoverProps } from './Boards.tsx';
import { money, profileName, ticks } from './names.ts';

const HEADS: readonly Head[] = [
  'Bought as',
  { figure: 'Money' },
  { figure: 'Against the order' },
  { figure: 'Boards' },
  { figure: 'Bought' },
  { figure: 'Waste' },
  'Remarks',
];

/** `+16.60`, `−3.00`, `the same`. */
function against(more: number): string {
  if (Math.abs(more) < 0.005) return 'the same';
  return `${more > 0 ? '+' : '−'}${money(Math.abs(more))}`;
}

export interface AlternativesProps extends HandoverProps {
  readonly stopped: boolean;
}

export function Alternatives({ last, figures, stopped }: AlternativesProps) {
  if (last.stage !== 'whole')
    return (
      <p className="soft">
        {stopped
          ? 'Stopped before it was worked out what other boards would cost. Go on to have it worked out.'
          : 'What other boards would cost follows once the boards are worked out.'}
      </p>
    );

  return (
    <>
      {last.cuts.alternatives.map(({ profile, rows }) => {
        const asked = rows.find(({ kind }) => kind === 'asked');
        return (
          <section key={profile} className="handover-profile" aria-label={profileName(last, profile)}>
            <h2>{profileName(last, profile)}</h2>
            <table className="handover-table handover-otherwise">
              <caption className="unseen">{profileName(last, profile)} bought otherwise</caption>
              <Heads of={HEADS} />
              <tbody>
                {rows.map((row) => {
                  const name =
                    row.kind === 'asked'
                      ? 'as ordered'
                      : row.onlyMm === null
                        ? row.name
                        : `only ${figures.length(ticks(row.onlyMm))}`;
                  // What leaves pieces uncut is no price for the same job.
                  const whole = row.money !== null && row.unplaced === 0;
                  const figure = (words: string): string => (placesNothing(row) ? '–' : words);
                  const more = !whole || asked?.money == null ? null : row.money - asked.money;
                  return (
                    <tr key={`${row.kind} ${name}`}>
                      <th scope="row">{name}</th>
                      <td className={whole ? 'figure' : 'figure soft'}>{figure(money(row.money))}</td>
                      <td className="figure">
                        {row.kind === 'asked' || more === null ? '–' : against(more)}
                      </td>
                      <td className="figure">{figure(`${row.boards}`)}</td>
                      <td className="figure">{figure(figures.length(ticks(row.boughtMm)))}</td>
                      <td className="figure">{figure(figures.length(ticks(row.wasteMm)))}</td>
                      <td className={row.unplaced > 0 ? 'wrong' : 'soft'}>
                        {alternativeRemarks(row).join('; ')}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
            {tableRemarks(rows).map((remark) => (
              <p key={remark} className="soft">
                {remark}
              </p>
            ))}
          </section>
        );
      })}
    </>
  );
}
