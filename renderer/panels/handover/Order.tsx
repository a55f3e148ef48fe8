// What to buy: one line for each profile and length, spare apart, and the sums.

import { Heads } from '../kit/Heads.tsx';
import type { HandoverProps } from './Boards.tsx';
import { money, profileName, ticks } from './names.ts';

export function Order({ last, figures }: HandoverProps) {
  const { purchase, totals, stock } = last.solved.report;
  const onHand = stock.reduce((sum, { boards }) => sum + boards.filter((board) => board.onHand).length, 0);
  const number = (key: string): number | null => {
    const value = totals[key];
    return typeof value === 'number' ? value : null;
  };
  const unpriced = number('unpricedBoards') ?? 0;
  return (
    <section className="handover-profile" aria-label="Order list">
      <table className="handover-table">
        <caption className="unseen">Order list, by profile and length</caption>
        <Heads
          of={[
            'Profile',
            ...['Length', 'Count', 'Each', 'Sum', 'Spare', 'For spare'].map((figure) => ({ figure })),
          ]}
        />
        <tbody>
          {purchase.map((line) => (
            <tr key={`${line.profile} ${line.lengthMm} ${line.price}`}>
              <th scope="row">{profileName(last, line.profile)}</th>
              <td className="figure">{figures.length(ticks(line.lengthMm))}</td>
              <td className="figure">
                <b>{line.count}</b>
              </td>
              <td className="figure">{money(line.price)}</td>
              <td className="figure">{money(line.sum)}</td>
              <td className="figure">{line.spare === 0 ? '–' : line.spare}</td>
              <td className="figure">{line.spare === 0 ? '–' : money(line.spareSum)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">All together</th>
            <td />
            <td className="figure">
              <b>{purchase.reduce((sum, { count }) => sum + count, 0)}</b>
            </td>
            <td />
            <td className="figure">
              <b>{money(number('money'))}</b>
            </td>
            <td className="figure">{purchase.reduce((sum, { spare }) => sum + spare, 0)}</td>
            <td className="figure">{money(number('spareMoney'))}</td>
          </tr>
        </tfoot>
      </table>
      {unpriced > 0 ? (
        <p className="wrong">
          {unpriced} {unpriced === 1 ? 'board has' : 'boards have'} no price; the sum is without{' '}
          {unpriced === 1 ? 'it' : 'them'}.
        </p>
      ) : null}
      {onHand > 0 ? (
        <p className="soft">
          {onHand} {onHand === 1 ? 'board' : 'boards'} on hand used as well, and not ordered.
        </p>
      ) : null}
    </section>
  );
}
