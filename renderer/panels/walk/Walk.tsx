// The walk: the house as a tree, in the order a carpenter goes round it. One tab stop; the focus moves on its own and shows
// where it is on the sheet; Space or a click chooses, Enter goes on to the ticket. Follows what is chosen elsewhere.

import { useDeferredValue, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { LevelId } from '../../../core/plan/index.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { type Ref, refKey, sameRef } from '../../state/refs.ts';
import { shownOf } from '../../state/selectors.ts';
import { figuresOf } from '../kit/figures.ts';
import { levelFound, roomsHolding } from '../ticket/find.ts';
import { focusTicket } from '../ticket/focus.ts';
import { firstOpened, openedStill, rowKeyNow } from './opened.ts';
import { levelKey, looseKey, roomKey, rowKey, type WalkRow } from './row.ts';
import { foundRows, type RowMemory, walkRows } from './rows.ts';
import { showOnSheet } from './show.ts';
import { rowLeft, rowOfNumber, rowsBetween, treeStep } from './tree-keys.ts';
import { idOfRow, RowGroup } from './WalkRowView.tsx';
import './walk.css';

/** Figures typed within this time are one number, ms. */
const TYPING_MS = 900;

export function Walk() {
  const app = useApp();
  const shown = usePicked(shownOf);
  const handle = usePicked((state) => state.open?.view.handle ?? null);
  if (shown === null || handle === null) return null;
  if (shown.levels.every(({ walk }) => walk.rooms.length === 0 && Object.keys(walk.level.walls).length === 0))
    return (
      <div className="walk-empty">
        <h2>The walk</h2>
        <p className="soft">
          Rooms are listed here as soon as walls close round them: corner 1, the board after it, the door,
          corner 2, and so on.
        </p>
      </div>
    );
  return <Tree key={handle} app={app} />;
}

function Tree({ app }: { readonly app: ReturnType<typeof useApp> }) {
  const shown = usePicked(shownOf)!;
  const selection = usePicked((state) => state.selection);
  const [asked, setAsked] = useState('');
  const finding = useDeferredValue(asked).trim();
  const [opened, setOpened] = useState<ReadonlySet<string>>(() => firstOpened(shown));
  const [focus, setFocus] = useState<string>('');
  const [seen, setSeen] = useState(shown);
  if (seen !== shown) {
    setSeen(shown);
    setOpened(openedStill(opened, seen, shown));
    setFocus(rowKeyNow(focus, seen, shown));
  }
  const tree = useRef<HTMLDivElement>(null);
  const moveTo = useRef<string | null>(null);
  const anchor = useRef<string>('');
  const typed = useRef({ text: '', at: 0 });
  const own = useRef<readonly Ref[] | null>(null);
  const hasKeys = useRef(false);

  const memory = useRef<RowMemory>(new Map());

  const { units, settings } = shown.plan;
  const figures = useMemo(() => figuresOf(shown.plan), [units, settings]);
  const rows = useMemo(
    () =>
      finding === ''
        ? walkRows(shown, opened, figures, memory.current)
        : foundRows(walkRows(shown, null, figures, memory.current), finding),
    [shown, opened, figures, finding],
  );
  const chosen = new Set(selection.map(refKey));
  const drawn = useRef({ rows, shown, finding, focus });
  const left = rows.some(({ key }) => key === focus) ? focus : leftBeside();
  const focused = left ?? rows[0]?.key ?? '';

  useLayoutEffect(() => {
    drawn.current = { rows, shown, finding, focus: left ?? focus };
    if (left !== null && left !== focus) setFocus(left);
  });

  // What is chosen elsewhere is opened and brought into view.
  useEffect(() => {
    const first = selection[0];
    if (first === undefined || selection === own.current) return;
    const level = levelFound(shown, first.level);
    if (level === null) return;
    const rooms = roomsHolding(level, first);
    const room = rooms.find((id) => opened.has(roomKey(first.level, id))) ?? rooms[0];
    own.current = selection;
    if (room === undefined) {
      // A wall that no room looks at.
      setOpened((all) => new Set([...all, levelKey(first.level), looseKey(first.level)]));
      setAsked('');
      moveTo.current = rowKey(looseKey(first.level), first);
      return;
    }
    setOpened(
      (all) =>
        new Set([
          ...all,
          levelKey(first.level),
          ...(first.kind === 'room' ? [] : [roomKey(first.level, room)]),
        ]),
    );
    setAsked('');
    const key = rowKey(room, first);
    setFocus(key);
    moveTo.current = key;
  }, [selection, shown, opened]);

  // A row that the focus went to is brought into view, and takes the keyboard where the tree has it.
  useEffect(() => {
    const key = moveTo.current;
    if (key === null) return;
    const at = rows.find((row) => row.key === key) ?? rows.find(({ ref, also }) => matches(ref, also, key));
    if (at === undefined) return;
    moveTo.current = null;
    if (at.key !== focus) setFocus(at.key);
    const element = document.getElementById(idOfRow(at.key));
    element?.scrollIntoView({ block: 'nearest' });
    if (tree.current?.contains(document.activeElement) === true) element?.focus({ preventScroll: true });
  });

  // A row that had the keyboard may be another element now: its room has got another id.
  useLayoutEffect(() => {
    if (hasKeys.current && document.activeElement === document.body)
      document.getElementById(idOfRow(focused))?.focus({ preventScroll: true });
  });

  /** The row beside the one that had the focus and was taken away, with an edit say. Null: there was none, or it is not found. */
  function leftBeside(): string | null {
    const was = drawn.current;
    if (was.finding !== finding) return null;
    const there = new Set(rows.map(({ key }) => key));
    const now = (key: string): string => rowKeyNow(key, was.shown, shown);
    const key = rowLeft(was.rows, was.focus, (each) => there.has(now(each)));
    return key === null ? null : now(key);
  }

  function go(key: string): void {
    setFocus(key);
    moveTo.current = key;
    const ref = rows.find((row) => row.key === key)?.ref ?? null;
    app.change(({ hover }) => (sameRef(hover, ref) ? {} : { hover: ref }));
  }

  function choose(refs: readonly Ref[]): void {
    own.current = refs;
    app.select(refs);
    const first = refs[0];
    if (refs.length === 1 && first !== undefined) showOnSheet(app, first);
  }

  function pick(key: string, how: { readonly shift: boolean; readonly mod: boolean }): void {
    const row = rows.find((each) => each.key === key);
    if (row === undefined) return;
    if (how.shift && anchor.current !== '') {
      const refs = rowsBetween(rows, anchor.current, key).flatMap(({ ref, kind }) =>
        ref === null || kind === 'room' ? [] : [ref],
      );
      choose(unique(refs));
      return;
    }
    anchor.current = key;
    if (row.kind === 'level') app.setLevel(row.key.slice(levelKey('').length) as LevelId);
    if (row.ref === null) return;
    if (how.mod) {
      const { ref } = row;
      const has = selection.some((each) => sameRef(each, ref));
      choose(has ? selection.filter((each) => !sameRef(each, ref)) : [...selection, ref]);
    } else choose([row.ref]);
  }

  function toggle(keys: readonly string[], open: boolean): void {
    setOpened((all) => {
      const next = new Set(all);
      for (const key of keys) {
        if (open) next.add(key);
        else next.delete(key);
      }
      return next;
    });
  }

  function onKeyDown(event: React.KeyboardEvent): void {
    if (event.altKey) return;
    const mod = event.ctrlKey || event.metaKey;
    const taken = (): void => {
      event.preventDefault();
      event.stopPropagation();
    };
    if (!/^\d$/.test(event.key)) typed.current = { text: '', at: 0 };
    if (event.key === ' ') {
      taken();
      pick(focused, { shift: event.shiftKey, mod });
      return;
    }
    if (mod) return;
    if (event.key === 'Enter') {
      taken();
      const row = rows.find((each) => each.key === focused);
      if (row?.ref == null) return;
      pick(focused, { shift: false, mod: false });
      focusTicket(app);
      return;
    }
    if (/^\d$/.test(event.key)) {
      taken();
      const now = event.timeStamp;
      const text = now - typed.current.at < TYPING_MS ? typed.current.text + event.key : event.key;
      typed.current = { text, at: now };
      const key = rowOfNumber(rows, focused, text);
      if (key !== null) go(key);
      return;
    }
    const step = treeStep(rows, focused, event.key, event.shiftKey);
    if (step === null) return;
    taken();
    if (step.kind !== 'focus') toggle(step.keys, step.kind === 'open');
    else {
      if (step.extend && anchor.current === '') anchor.current = focused;
      go(step.key);
      if (step.extend) pick(step.key, { shift: true, mod: false });
      else anchor.current = step.key;
    }
  }

  function onClick(event: React.MouseEvent): void {
    const element = (event.target as Element).closest<HTMLElement>('[data-row]');
    const key = element?.dataset.row;
    if (key === undefined) return;
    const row = rows.find((each) => each.key === key);
    setFocus(key);
    const turns = (event.target as Element).closest('[data-turn]') !== null;
    if (row === undefined) return;
    if (row.opens && turns) toggle([key], !row.open);
    else if (row.ref === null && row.opens) {
      toggle([key], row.kind === 'level' || !row.open);
      pick(key, { shift: false, mod: false });
    } else pick(key, { shift: event.shiftKey, mod: event.ctrlKey || event.metaKey });
  }

  const nothing = finding !== '' && rows.length === 0;
  return (
    <div className="walk">
      <div className="walk-head">
        <h2 id="walk-title">The walk</h2>
        <input
          type="search"
          className="walk-find"
          aria-label="Find in the walk"
          placeholder="Find: hall cope"
          title={`Shows only the rows with these words. Go to the walk: ${COMMAND_ROWS['view.walk'].keys?.[0] ?? ''}`}
          data-settled={asked === '' ? '' : undefined}
          value={asked}
          onChange={({ target }) => setAsked(target.value)}
          onKeyDown={(event) => {
            if (event.key === 'ArrowDown' || event.key === 'Enter') {
              event.preventDefault();
              document.getElementById(idOfRow(focused))?.focus();
            } else if (event.key === 'Escape' && asked !== '') {
              event.stopPropagation();
              setAsked('');
            }
          }}
        />
      </div>
      <div
        id="walk-tree"
        ref={tree}
        className="walk-tree"
        role="tree"
        aria-labelledby="walk-title"
        aria-multiselectable="true"
        data-keys="walk"
        tabIndex={rows.length === 0 ? 0 : -1}
        onKeyDown={onKeyDown}
        onClick={onClick}
        onFocus={({ target }) => {
          hasKeys.current = true;
          const key = (target as HTMLElement).dataset.row;
          if (key !== undefined && key !== focus) go(key);
        }}
        onPointerOver={({ target }) => {
          const key = (target as Element).closest<HTMLElement>('[data-row]')?.dataset.row;
          const ref = rows.find((row) => row.key === key)?.ref ?? null;
          app.change(({ hover }) => (sameRef(hover, ref) ? {} : { hover: ref }));
        }}
        onPointerLeave={() => app.change(() => ({ hover: null }))}
        onBlur={({ relatedTarget }) => {
          if (tree.current?.contains(relatedTarget) === true) return;
          hasKeys.current = relatedTarget === null && !document.hasFocus();
          app.change(() => ({ hover: null }));
        }}
      >
        {groupsOf(rows).map((group) => (
          <RowGroup
            key={group[0]!.key}
            rows={group}
            chosen={chosenKeys(group, chosen)}
            focused={group.some(({ key }) => key === focused) ? focused : null}
          />
        ))}
      </div>
      {nothing ? <p className="walk-none soft">Nothing in the walk has all of these words.</p> : null}
    </div>
  );
}

function matches(ref: Ref | null, also: readonly string[], key: string): boolean {
  const thing = key.slice(key.indexOf(' ') + 1);
  return also.includes(thing) || (ref !== null && refKey(ref) === thing);
}

/** Rows that are drawn together: what a room holds, or one heading. */
function groupsOf(rows: readonly WalkRow[]): readonly (readonly WalkRow[])[] {
  const groups: WalkRow[][] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (row.depth === 3 && last?.[0]?.parent === row.parent) last.push(row);
    else groups.push([row]);
  }
  return groups;
}

/** The rows of a group that show something chosen, as one text. */
function chosenKeys(rows: readonly WalkRow[], chosen: ReadonlySet<string>): string {
  if (chosen.size === 0) return '';
  return rows
    .filter(({ id, also }) => (id !== null && chosen.has(id)) || also.some((key) => chosen.has(key)))
    .map(({ key }) => key)
    .join('\n');
}

function unique(refs: readonly Ref[]): readonly Ref[] {
  return [...new Map(refs.map((ref) => [refKey(ref), ref])).values()];
}
