// Boards that lie there already, by moulding: lengths and how many. They cost nothing, and are used where that saves [ST5].

import { bareName } from '../../../core/fit/say.ts';
import { lookup, type Plan, type Profile, type ProfileId, sortedEntries } from '../../../core/plan/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { figuresOf } from '../kit/figures.ts';
import { ABOVE_ZERO } from '../kit/range.ts';
import { NumberField } from './NumberField.tsx';
import { KINDS } from './profile-kinds.ts';
import { TakeOut } from './TakeOut.tsx';
import './profiles.css';

type Boards = readonly { readonly length: number; readonly count: number }[];

export function StockDialog() {
  const app = useApp();
  const plan = usePicked(({ open }) => open?.plan ?? null);
  if (plan === null) return null;
  const profiles = sortedEntries(plan.profiles);
  return (
    <DialogBox
      title="Stock on hand"
      foot={
        <>
          <button type="button" onClick={() => app.show({ id: 'profiles' })}>
            Lengths and prices…
          </button>
          <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
            Done
          </button>
        </>
      }
    >
      <p className="soft">
        Boards and off-cuts that are there already. They cost nothing, and are used where that saves.
      </p>
      {profiles.length === 0 ? (
        <p className="soft">No profile yet: add the mouldings of this job first.</p>
      ) : null}
      {profiles.map(([id, profile]) => (
        <Boards key={id} plan={plan} id={id} profile={profile} />
      ))}
    </DialogBox>
  );
}

interface BoardsProps {
  readonly plan: Plan;
  readonly id: ProfileId;
  readonly profile: Profile;
}

function Boards({ plan, id, profile }: BoardsProps) {
  const app = useApp();
  const figures = figuresOf(plan);
  const boards: Boards = lookup(plan.stockOnHand, id) ?? [];
  const name = bareName(id, profile);
  const set = (next: Boards): boolean =>
    app.commit({ type: 'setStockOnHand', profile: id, boards: next }, { words: `set stock of ${name}` });
  const put = (at: number, change: Partial<Boards[number]>): boolean =>
    set(boards.map((each, index) => (index === at ? { ...each, ...change } : each)));
  const first = profile.stock.at(-1)?.length ?? (plan.units === 'imperial' ? 96 * 8128 : 2400 * 320);
  return (
    <fieldset className="on-hand">
      <legend>
        {name} <span className="soft">{KINDS.find(({ kind }) => kind === profile.kind)!.words}</span>
      </legend>
      {boards.length === 0 ? null : (
        <table className="cells">
          <thead>
            <tr>
              <th scope="col">Length</th>
              <th scope="col">How many</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {boards.map((each, at) => (
              <tr key={`${id} ${at + 1}`}>
                <td>
                  <FigureField
                    label={`Length ${at + 1} of ${name}`}
                    figures={figures}
                    takes="length"
                    range={ABOVE_ZERO}
                    value={each.length}
                    onSet={(length) => length !== null && put(at, { length })}
                  />
                </td>
                <td>
                  <NumberField
                    label={`How many of length ${at + 1} of ${name}`}
                    range={{ least: 0, most: 1_000_000, whole: true }}
                    value={each.count}
                    onSet={(count) => count !== null && put(at, { count })}
                  />
                </td>
                <td>
                  <TakeOut
                    label={`Take length ${at + 1} of ${name} out`}
                    title="Take this length out"
                    onTake={() => set(boards.filter((_, index) => index !== at))}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <button type="button" data-add onClick={() => set([...boards, { length: first, count: 1 }])}>
        Add a board<span className="unseen"> of {name}</span>
      </button>
    </fieldset>
  );
}
