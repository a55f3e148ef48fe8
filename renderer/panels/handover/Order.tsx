// What to buy: one line for each profile and length, spare apart, and the sums.

import { knownSum, orderSums, sumWords, withoutWords } from '../../../core/report/index.ts';
import { Heads } from '../kit/Heads.tsx';
import type { HandoverProps } from './Boards.tsx';
import { cutNames, money, profileName, ticks } from './names.ts';

export function Order({ last, figures }: HandoverProps) {
  const { purchase, stock } = last.solved.report;
  const sums = orderSums(purchase);
  const uncut = withoutWords(stock, cutNames(last));
  const onHand = stock.reduce((sum, { boards }) => sum + boards.filter((board) => board.onHand).length, 0);
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
              <b>{money(knownSum(sums.boards))}</b>
            </td>
            <td className="figure">{purchase.reduce((sum, { spare }) => sum + spare, 0)}</td>
            <td className="figure">{money(knownSum(sums.spare))}</td>
          </tr>
        </tfoot>
      </table>
      {uncut === null ? null : <p className="wrong">{uncut}</p>}
      {sums.boards.includes(null) ? <p className="wrong">All together: {sumWords(sums.boards)}.</p> : null}
      {sums.spare.includes(null) ? <p className="wrong">For spare: {sumWords(sums.spare)}.</p> : null}
      {onHand > 0 ? (
        <p className="soft">
          {onHand} {onHand === 1 ? 'board' : 'boards'} on hand used as well, and not ordered.
        </p>
      ) : null}
    </section>
  );
}
