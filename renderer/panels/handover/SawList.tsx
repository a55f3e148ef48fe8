// The cut list by saw setting: the saw is set once for each group, the longest board first.

import { byCodeUnit } from '../../../core/plan/index.ts';
import { formatSaw } from '../../../core/units/index.ts';
import { useApp } from '../../state/react.ts';
import type { HandoverProps } from './Boards.tsx';
import { profileName, roomName, ticks } from './names.ts';

export function SawList({ last, figures }: HandoverProps) {
  const app = useApp();
  const { pieces } = last.solved.report;
  const groups = new Map<string, { low: number; high: number; profile: string; pieces: typeof pieces }>();
  for (const piece of pieces) {
    const [low, high] = [piece.left.sawDeg, piece.right.sawDeg].toSorted((a, b) => a - b) as [number, number];
    const key = `${piece.profile} ${formatSaw(low)} ${formatSaw(high)}`;
    const group = groups.get(key) ?? { low, high, profile: piece.profile, pieces: [] };
    groups.set(key, { ...group, pieces: [...group.pieces, piece] });
  }
  const sorted = [...groups.values()].toSorted(
    (a, b) => byCodeUnit(a.profile, b.profile) || a.low - b.low || a.high - b.high,
  );
  return (
    <>
      {sorted.map((group) => (
        <section
          key={`${group.profile} ${group.low} ${group.high}`}
          className="handover-profile"
          aria-label={`${profileName(last, group.profile)}, saw at ${formatSaw(group.low)} and ${formatSaw(group.high)}`}
        >
          <header className="row">
            <h2>{profileName(last, group.profile)}</h2>
            <span className="handover-proof">
              saw at {formatSaw(group.low)}
              {formatSaw(group.low) === formatSaw(group.high)
                ? ', both ends'
                : ` and ${formatSaw(group.high)}`}
            </span>
          </header>
          <ul className="handover-pieces">
            {group.pieces
              .toSorted((a, b) => b.overallMm - a.overallMm || byCodeUnit(a.id, b.id))
              .map((piece) => (
                <li key={piece.id}>
                  <button
                    type="button"
                    className="plain"
                    onClick={() => app.select([{ kind: 'piece', level: piece.level as never, id: piece.id }])}
                  >
                    <b>{piece.id}</b> {figures.inches(ticks(piece.overallMm))}
                    <span className="soft">
                      {' '}
                      {piece.left.end} {formatSaw(piece.left.sawDeg)} · {piece.right.end}{' '}
                      {formatSaw(piece.right.sawDeg)} · {roomName(last, piece.level, piece.room)}
                      {piece.lengthFrom === 'drawn' ? ' · drawn, measure first' : ''}
                    </span>
                  </button>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </>
  );
}
