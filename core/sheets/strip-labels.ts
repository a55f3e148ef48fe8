// Names above and below a strip: pushed apart along a lane as little as may be, in further lanes where one does not hold
// them all. Points. Kept: no two labels of a lane touch, none leaves the row [SH4]. Knows nothing of what a label says.

import type { Item } from './items.ts';

/** A label with where it would like to stand; `draw` is given its middle and its top. */
export interface Label {
  readonly x: number;
  readonly width: number;
  readonly height: number;
  readonly draw: (x: number, top: number) => Item[];
}

/** A label in its place. */
export interface Placed {
  readonly label: Label;
  /** 0 is nearest the wall. */
  readonly lane: number;
  readonly x: number;
}

/** Clear space between labels of a lane, points. */
export const LABEL_GAP = 4;

/** Labels pushed apart along one lane as little as may be; where a row is too short for all, in as many lanes as it takes. */
export function inLanes(labels: readonly Label[], low: number, high: number): Placed[] {
  const sorted = labels.toSorted((a, b) => a.x - b.x);
  for (let count = 1; ; count++) {
    const lanes = Array.from({ length: count }, (_, lane) =>
      sorted.filter((_, index) => index % count === lane),
    );
    if (count < sorted.length && lanes.some((lane) => widthOf(lane) - LABEL_GAP > high - low)) continue;
    return lanes.flatMap((lane, position) =>
      spread(lane, low, high).map((placed) => ({ ...placed, lane: position })),
    );
  }
}

/** Least moves that keep labels apart: neighbours that would touch move as one, about the mean of where they would stand. */
function spread(labels: readonly Label[], low: number, high: number): { label: Label; x: number }[] {
  const groups: Group[] = [];
  for (const label of labels) {
    groups.push({
      members: [{ label, offset: label.width / 2 }],
      at: label.x - label.width / 2,
      width: label.width,
    });
    for (;;) {
      const last = groups.at(-1)!;
      last.at = Math.max(low, Math.min(last.at, high - last.width));
      const before = groups.at(-2);
      if (!before || before.at + before.width + LABEL_GAP <= last.at) break;
      groups.splice(-2, 2, joined(before, last));
    }
  }
  return groups.flatMap(({ members, at }) => members.map(({ label, offset }) => ({ label, x: at + offset })));
}

type Group = { members: { label: Label; offset: number }[]; at: number; width: number };

function joined(a: Group, b: Group): Group {
  const members = [
    ...a.members,
    ...b.members.map(({ label, offset }) => ({ label, offset: offset + a.width + LABEL_GAP })),
  ];
  const at = members.reduce((sum, { label, offset }) => sum + label.x - offset, 0) / members.length;
  return { members, at, width: a.width + LABEL_GAP + b.width };
}

/** Width of labels side by side, a gap after each. */
export function widthOf(labels: readonly Label[]): number {
  return labels.reduce((sum, label) => sum + label.width + LABEL_GAP, 0);
}

/** The first labels whose widths together stay within `width`. */
export function heldBy(labels: readonly Label[], width: number): Label[] {
  let used = 0;
  return labels.filter((label) => {
    used += label.width + LABEL_GAP;
    return used <= width;
  });
}
