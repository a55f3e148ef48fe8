// The lengths a moulding can be had in, each with its price and how many there are, as a small table of fields.

import type { Profile } from '../../../core/plan/index.ts';
import { FigureField } from '../kit/FigureField.tsx';
import type { Figures } from '../kit/figures.ts';
import { ABOVE_ZERO } from '../kit/range.ts';
import { NumberField } from './NumberField.tsx';
import { TakeOut } from './TakeOut.tsx';

type Stock = Profile['stock'];

export interface StockLengthsProps {
  readonly stock: Stock;
  readonly figures: Figures;
  readonly onSet: (stock: Stock) => unknown;
}

/** A row's length to begin with: one step over the longest there is. */
const STEP = { imperial: 24 * 8128, metric: 600 * 320 } as const;
const FIRST = { imperial: 144 * 8128, metric: 3600 * 320 } as const;

export function StockLengths({ stock, figures, onSet }: StockLengthsProps) {
  const put = (at: number, change: Partial<Stock[number]>): unknown =>
    onSet(stock.map((each, index) => (index === at ? { ...each, ...change } : each)));
  const { units } = figures;
  const next =
    stock.length === 0 ? FIRST[units] : Math.max(...stock.map((each) => each.length)) + STEP[units];
  return (
    <fieldset className="stock-lengths">
      <legend>Lengths to be had</legend>
      {stock.length === 0 ? (
        <p className="soft">None listed: this moulding is not laid into boards.</p>
      ) : (
        <table className="cells">
          <thead>
            <tr>
              <th scope="col">Length</th>
              <th scope="col">Price each</th>
              <th scope="col">How many</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {stock.map((each, at) => (
              <tr key={at}>
                <td>
                  <FigureField
                    label={`Length ${at + 1}`}
                    figures={figures}
                    takes="length"
                    range={ABOVE_ZERO}
                    value={each.length}
                    onSet={(length) => length !== null && put(at, { length })}
                  />
                </td>
                <td>
                  <NumberField
                    label={`Price of length ${at + 1}`}
                    range={{ least: 0, most: 1e9 }}
                    digits={2}
                    value={each.price ?? null}
                    placeholder="not known"
                    mayBeEmpty
                    onSet={(price) => put(at, { price: price ?? undefined })}
                  />
                </td>
                <td>
                  <NumberField
                    label={`How many of length ${at + 1}`}
                    range={{ least: 0, most: 1_000_000, whole: true }}
                    value={each.onHand ?? null}
                    placeholder="no limit"
                    mayBeEmpty
                    onSet={(onHand) => put(at, { onHand: onHand ?? undefined })}
                  />
                </td>
                <td>
                  <TakeOut
                    label={`Take length ${at + 1} out`}
                    title={`Take ${figures.length(each.length)} out of the list`}
                    onTake={() => onSet(stock.filter((_, index) => index !== at))}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <button type="button" data-add onClick={() => onSet([...stock, { length: next }])}>
        Add {figures.length(next)}
      </button>
    </fieldset>
  );
}
