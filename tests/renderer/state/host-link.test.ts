// A window whose plan another window changes or closes: what it shows then, what it is told, and that nothing done in it is
// lost. The host is a stand-in that answers when it is told to.

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { apply, type Edit, prepare } from '../../../core/edit/index.ts';
import { emptyPlan, type Plan, readPlanBytes } from '../../../core/plan/index.ts';
import type { Bridge, DocumentView, EditAnswer, HeldPlan, OpenAnswer } from '../../../electron/contract.ts';
import { createApp } from '../../../renderer/state/app.ts';
import type { Jobs } from '../../../renderer/work/jobs.ts';

const idle = {
  start: () => ({ done: new Promise(() => undefined), cancel: () => undefined }),
} as unknown as Jobs;
const titled = (value: string): Edit => ({
  type: 'patch',
  patches: [{ op: 'replace', path: ['title'], value }],
});
const pass = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

function retitled(plan: Plan, title: string): Plan {
  const done = apply(plan, titled(title));
  if (!done.ok) throw new Error(done.message);
  return done.plan;
}

/** A window on a host with one plan, titled 'Start', in a file. */
function windowOnHost() {
  const prepared = prepare({ ...emptyPlan('metric'), title: 'Start' });
  if (!prepared.ok) throw new Error(prepared.message);
  const viewOf = (more: Partial<DocumentView> = {}): DocumentView => ({
    handle: 'first',
    name: 'house.copewright.json',
    title: 'Start',
    revision: 0,
    unsaved: false,
    autosaveStopped: null,
    journalProblem: null,
    ...more,
  });
  const host = {
    /** What is answered to the next edits, in turn; after that nothing is answered. */
    edits: [] as (Partial<EditAnswer> & { readonly ok: boolean })[],
    held: { view: viewOf(), plan: prepared.plan, history: [] } as HeldPlan | null,
    /** Calls of `openText`, answered by hand. */
    given: [] as { readonly title: string; take(): void; fail(): void }[],
    closed: [] as string[],
    fetched: 0,
    /** Where given, the plan is handed out when this is done. */
    slow: null as Promise<void> | null,
  };
  const bridge = {
    form: 'browser',
    platform: 'linux',
    on: () => () => undefined,
    edit: async () => {
      const answer = host.edits.shift();
      return answer ?? new Promise(() => undefined);
    },
    plan: async () => {
      host.fetched += 1;
      const { held } = host;
      await host.slow;
      return held;
    },
    openText: ({ text }: { text: string }) =>
      new Promise<OpenAnswer>((resolve, reject) => {
        const read = readPlanBytes(new TextEncoder().encode(text));
        if (!read.ok) throw new Error(read.error.message);
        const { plan } = read;
        const view = viewOf({ handle: `kept ${plan.title}`, name: null, title: plan.title, unsaved: true });
        host.given.push({
          title: plan.title,
          take: () => resolve({ outcome: 'opened', view, plan, notes: [], history: [] }),
          fail: () => reject(new Error('gone')),
        });
      }),
    close: async ({ handle }: { handle: string }) => {
      host.closed.push(handle);
      return { outcome: 'closed', kept: false };
    },
  } as unknown as Bridge;
  const app = createApp(bridge, idle);
  const open = (view: DocumentView): void =>
    void app.opened({ outcome: 'opened', view, plan: prepared.plan, notes: [], history: [] });
  open(viewOf());
  /** Another window's edits: the host has them, and tells of the last. */
  const changeElsewhere = (revision: number, title: string, tell = true): void => {
    const view = viewOf({ revision, title, unsaved: true });
    host.held = { view, plan: retitled(prepared.plan, title), history: [] };
    if (tell) app.viewed(view);
  };
  const shown = () => app.store.get().open!;
  const said = () =>
    app.store
      .get()
      .notices.map(({ words }) => words)
      .join(' ');
  return { app, host, open, viewOf, changeElsewhere, shown, said };
}

describe('a plan that is open in two windows', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('is followed where nothing of this window is on its way, to the last of several changes', async () => {
    const own = windowOnHost();
    own.app.change(() => ({ stage: 'trim' }));
    own.changeElsewhere(1, 'One');
    own.changeElsewhere(2, 'Two');
    await pass();
    expect([own.shown().plan.title, own.shown().view.revision]).toEqual(['Two', 2]);
    // News that comes while the plan is fetched is not forgotten.
    own.app.viewed(own.viewOf({ revision: 3, title: 'Three' }));
    own.changeElsewhere(4, 'Four');
    await pass();
    expect([own.shown().plan.title, own.app.store.get().stage]).toEqual(['Four', 'trim']);
    expect(own.said()).toBe('This plan was changed in another window; it is shown as it is now.');
    const fetched = own.host.fetched;
    own.app.viewed(own.viewOf({ revision: 4, title: 'Four' }));
    await pass();
    expect(own.host.fetched).toBe(fetched);
  });

  it('is not followed over what is done here while it is fetched; and is fetched once at a time', async () => {
    const own = windowOnHost();
    let hand = (): void => undefined;
    own.host.slow = new Promise((resolve) => {
      hand = resolve;
    });
    own.changeElsewhere(1, 'Theirs');
    own.changeElsewhere(2, 'Theirs again');
    await pass();
    expect(own.host.fetched).toBe(1);
    own.app.commit(titled('Mine'));
    hand();
    await pass();
    expect([own.shown().plan.title, own.host.fetched]).toEqual(['Mine', 1]);
  });

  it('is unsaved from an edit on until its answer, whatever the host says of what it has', async () => {
    const own = windowOnHost();
    own.app.commit(titled('Mine'));
    expect(own.shown().view.unsaved).toBe(true);
    own.app.viewed(own.viewOf({ unsaved: false }));
    expect(own.shown().view.unsaved).toBe(true);
    const both = windowOnHost();
    both.host.edits.push({ ok: true, revision: 1, unsaved: false });
    both.app.commit(titled('One'));
    both.app.commit(titled('Start'));
    await pass();
    expect(both.shown().view).toMatchObject({ unsaved: true, revision: 1 });
    const two = windowOnHost();
    two.host.edits.push({ ok: true, revision: 1, unsaved: false });
    two.app.commit(titled('Mine'));
    await pass();
    expect(two.shown().view).toMatchObject({ unsaved: false, revision: 1 });
  });

  it('and changed in both at once goes on here as a plan of its own, with what is done meanwhile', async () => {
    const own = windowOnHost();
    own.host.edits.push({ ok: false, code: 'out-of-step', message: 'No.' });
    own.app.commit(titled('Mine'));
    own.changeElsewhere(1, 'Theirs');
    await pass();
    expect(own.shown().plan.title).toBe('Mine');
    own.app.commit(titled('Mine, more'));
    own.host.given[0]!.fail();
    await pass(2000);
    // Asked again, and with what is shown by now; what came too late is closed again.
    expect(own.host.given.map(({ title }) => title)).toEqual(['Mine', 'Mine, more']);
    own.app.commit(titled('Mine, at last'));
    own.host.given[1]!.take();
    await pass();
    own.host.given[2]!.take();
    await pass();
    expect(own.host.closed).toEqual(['kept Mine, more']);
    expect(own.shown()).toMatchObject({
      plan: { title: 'Mine, at last' },
      view: { name: null, unsaved: true },
    });
    expect(own.said()).toContain('changed in another window at the same time');
    own.host.edits.push({ ok: true, revision: 1, unsaved: true });
    own.app.undo();
    await pass();
    expect([own.shown().plan.title, await own.app.settled()]).toEqual(['Mine, more', true]);
  });

  it('and changed there again before it is kept here stays as it is here, unsaved', async () => {
    const own = windowOnHost();
    own.host.edits.push({ ok: false, code: 'out-of-step', message: 'No.' });
    own.app.commit(titled('Mine'));
    own.changeElsewhere(1, 'Theirs');
    await pass();
    own.changeElsewhere(2, 'Theirs again');
    own.app.viewed(own.viewOf({ revision: 2, title: 'Theirs again', unsaved: false }));
    await pass();
    expect(own.shown()).toMatchObject({ plan: { title: 'Mine' }, view: { unsaved: true } });
    own.host.given[0]!.take();
    await pass();
    expect(own.shown()).toMatchObject({ plan: { title: 'Mine' }, view: { handle: 'kept Mine' } });
    expect(own.host.fetched).toBe(0);
  });

  it('is followed as soon as the last answer is there, and where it changed before it was shown', async () => {
    const own = windowOnHost();
    let answer = (): void => undefined;
    own.host.edits.push(
      new Promise((resolve) => {
        answer = () => resolve({ ok: true, revision: 1, unsaved: true });
      }) as never,
    );
    own.app.commit(titled('Mine'));
    // The other window had this edit before this one had its answer.
    own.changeElsewhere(2, 'Theirs on mine');
    // Another plan of the host is no news of this one.
    own.app.viewed(own.viewOf({ handle: 'another', revision: 9 }));
    await pass();
    expect(own.shown().plan.title).toBe('Mine');
    answer();
    await pass();
    expect(own.shown().plan.title).toBe('Theirs on mine');

    const late = windowOnHost();
    late.app.viewed(late.viewOf({ handle: 'second', revision: 3, title: 'Newer' }));
    late.host.held = { ...late.host.held!, view: late.viewOf({ handle: 'second', revision: 3 }) };
    late.open(late.viewOf({ handle: 'second' }));
    await pass();
    expect([late.host.fetched, late.shown().view.revision]).toEqual([1, 3]);
  });

  it('and left for another plan meanwhile is given to nobody', async () => {
    const own = windowOnHost();
    own.host.edits.push({ ok: false, code: 'closed', message: 'No.' });
    own.app.commit(titled('Mine'));
    await pass();
    own.open(own.viewOf({ handle: 'second' }));
    own.host.given[0]!.take();
    await pass(10_000);
    expect(own.shown().view.handle).toBe('second');
    expect([own.host.closed, own.said()]).toEqual([['kept Mine'], '']);
  });

  it('is shown as the host has it where the host cannot do an edit, or goes on here where it is closed by then', async () => {
    for (const held of [true, false]) {
      const own = windowOnHost();
      own.host.edits.push({ ok: false, code: 'bad-edit', message: 'This is not an edit.' });
      if (!held) own.host.held = null;
      own.app.commit(titled('Mine'));
      await pass();
      expect(own.said()).toContain('This is not an edit.');
      expect(own.host.given.map(({ title }) => title)).toEqual(held ? [] : ['Mine']);
      expect(own.shown().plan.title).toBe(held ? 'Start' : 'Mine');
    }
  });
});
