// The cut list by moulding and saw setting: the saw is set once for each group, the longest board first; then the casings.

import { byCodeUnit } from '../../../core/plan/index.ts';
import { CASING_PARTS, type SawGroup, sawGroups } from '../../../core/sheets/index.ts';
import { formatSaw } from '../../../core/units/index.ts';
import { useApp } from '../../state/react.ts';
import type { Figures } from '../kit/figures.ts';
import { Heads } from '../kit/Heads.tsx';
import type { HandoverProps } from './Boards.tsx';
import { casingRef, openingName, pieceRef, profileName, roomName, ticks } from './names.ts';

type Piece = HandoverProps['last']['solved']['report']['pieces'][number];

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
            <Heads of={['Board', { figure: 'Length' }, 'Left end', 'Right end', 'Room', 'Remarks']} />
            {sawGroups(pieces.filter((piece) => piece.profile === profile)).map((group) => (
              <GroupRows key={group.words} group={group} last={last} figures={figures} />
            ))}
          </table>
        </section>
      ))}
      <Casings last={last} figures={figures} />
    </>
  );
}

function GroupRows({ group, last, figures }: HandoverProps & { readonly group: SawGroup }) {
  const app = useApp();
  return (
    <tbody>
      <tr className="handover-band">
        <th colSpan={6} scope="rowgroup">
          {group.words}
        </th>
      </tr>
      {group.pieces.map((piece) => (
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
        <Heads
          of={['Opening', 'Part', { figure: 'Short point' }, { figure: 'Long point' }, 'Moulding', 'Room']}
        />
        <tbody>
          {casings.flatMap((casing) =>
            casing.parts.map(({ part, shortMm, longMm }, at) => (
              <tr key={`${casing.level} ${casing.id} ${part}`}>
                <th scope="row">
                  {at === 0 ? (
                    <button
                      type="button"
                      className="plain handover-cut"
                      title="Choose it"
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
