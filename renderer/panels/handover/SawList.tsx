// The cut list by moulding and saw setting: the saw is set once for each group, the longest board first; then the casings.

import { byCodeUnit } from '../../../core/plan/index.ts';
import { CASING_PARTS } from '../../../core/sheets/index.ts';
import { formatSaw } from '../../../core/units/index.ts';
import { useApp } from '../../state/react.ts';
import type { Figures } from '../kit/figures.ts';
import type { HandoverProps } from './Boards.tsx';
import { casingRef, openingName, pieceRef, profileName, roomName, ticks } from './names.ts';

type Piece = HandoverProps['last']['solved']['report']['pieces'][number];

interface Group {
  readonly low: number;
  readonly high: number;
  readonly pieces: readonly Piece[];
}

export function SawList({ last, figures }: HandoverProps) {
  const { pieces } = last.solved.report;
  const profiles = [...new Set(pieces.map(({ profile }) => profile))].toSorted(byCodeUnit);
  if (pieces.length === 0 && last.solved.report.casings.length === 0)
    return <p className="handover-wait soft">Nothing is to be cut yet: no room carries trim.</p>;
  return (
    <>
      {profiles.map((profile) => (
        <section key={profile} className="handover-profile" aria-label={profileName(last, profile)}>
          <h2>{profileName(last, profile)}</h2>
          <table className="handover-table handover-cuts">
            <caption className="unseen">{profileName(last, profile)}, by saw setting</caption>
            <thead>
              <tr>
                <th scope="col">Board</th>
                <th scope="col" className="figure">
                  Length
                </th>
                <th scope="col">Left end</th>
                <th scope="col">Right end</th>
                <th scope="col">Room</th>
                <th scope="col">Remarks</th>
              </tr>
            </thead>
            {groupsOf(pieces.filter((piece) => piece.profile === profile)).map((group) => (
              <GroupRows key={settingWords(group)} group={group} last={last} figures={figures} />
            ))}
          </table>
        </section>
      ))}
      <Casings last={last} figures={figures} />
    </>
  );
}

/** By both settings as printed, the smaller first. */
function groupsOf(pieces: readonly Piece[]): Group[] {
  const groups = new Map<string, Group>();
  for (const piece of pieces) {
    const [low, high] = [piece.left.sawDeg, piece.right.sawDeg].toSorted((a, b) => a - b) as [number, number];
    const key = `${formatSaw(low)} ${formatSaw(high)}`;
    const own = groups.get(key) ?? { low, high, pieces: [] };
    groups.set(key, { ...own, pieces: [...own.pieces, piece] });
  }
  return [...groups.values()].toSorted((a, b) => a.low - b.low || a.high - b.high);
}

function settingWords({ low, high }: Group): string {
  const [a, b] = [formatSaw(low), formatSaw(high)];
  if (a === '0°') return b === '0°' ? 'Square both ends' : `Saw at ${b}, the other end square`;
  return a === b ? `Saw at ${a}, both ends` : `Saw at ${a} and ${b}`;
}

function GroupRows({ group, last, figures }: HandoverProps & { readonly group: Group }) {
  const app = useApp();
  return (
    <tbody>
      <tr className="handover-band">
        <th colSpan={6} scope="rowgroup">
          {settingWords(group)}
        </th>
      </tr>
      {group.pieces
        .toSorted((a, b) => b.overallMm - a.overallMm || byCodeUnit(a.id, b.id))
        .map((piece) => (
          <tr key={`${piece.level} ${piece.id}`}>
            <th scope="row">
              <button
                type="button"
                className="plain handover-cut"
                title={`Show board ${piece.id}`}
                onClick={() => app.select([pieceRef(piece)])}
              >
                {piece.id}
              </button>
            </th>
            <td className="figure">
              <b>{figures.inches(ticks(piece.overallMm))}</b>
            </td>
            <td>{endWords(piece.left)}</td>
            <td>{endWords(piece.right)}</td>
            <td>{roomName(last, piece.level, piece.room)}</td>
            <td className="soft">{remarks(piece, figures).join('; ')}</td>
          </tr>
        ))}
    </tbody>
  );
}

function endWords({ end, sawDeg }: Piece['left']): string {
  const saw = formatSaw(sawDeg);
  return saw === '0°' ? end : `${end} ${saw}`;
}

function remarks(piece: Piece, figures: Figures): string[] {
  return [
    ...(piece.returnOf === null ? [] : [`return of ${piece.returnOf}`]),
    ...(piece.lengthFrom === 'drawn' && piece.returnOf === null ? ['drawn: measure before cutting'] : []),
    ...(piece.springMm > 0 ? [`cut ${figures.fine(ticks(piece.springMm))} long to spring in`] : []),
  ];
}

function Casings({ last, figures }: HandoverProps) {
  const app = useApp();
  const { casings } = last.solved.report;
  if (casings.length === 0) return null;
  return (
    <section className="handover-profile" aria-label="Casings">
      <h2>Casings, mitred 45°</h2>
      <table className="handover-table handover-cuts">
        <caption className="unseen">Casings, mitred 45°</caption>
        <thead>
          <tr>
            <th scope="col">Opening</th>
            <th scope="col">Part</th>
            <th scope="col" className="figure">
              Short point
            </th>
            <th scope="col" className="figure">
              Long point
            </th>
            <th scope="col">Moulding</th>
            <th scope="col">Room</th>
          </tr>
        </thead>
        <tbody>
          {casings.flatMap((casing) =>
            casing.parts.map(({ part, shortMm, longMm }, at) => (
              <tr key={`${casing.level} ${casing.id} ${part}`}>
                <th scope="row">
                  {at === 0 ? (
                    <button
                      type="button"
                      className="plain handover-cut"
                      onClick={() => app.select([casingRef(casing)])}
                    >
                      {openingName(last, casing)}
                    </button>
                  ) : (
                    <span className="unseen">{openingName(last, casing)}</span>
                  )}
                </th>
                <td>{CASING_PARTS[part]}</td>
                <td className="figure">{figures.inches(ticks(shortMm))}</td>
                <td className="figure">
                  <b>{figures.inches(ticks(longMm))}</b>
                </td>
                <td>{profileName(last, casing.profile)}</td>
                <td>{roomName(last, casing.level, casing.room)}</td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </section>
  );
}
