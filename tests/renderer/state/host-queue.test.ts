// Edits on their way to a host that is slow, silent or of another mind, by a clock driven by hand.

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Edit } from '../../../core/edit/index.ts';
import type { Bridge, EditAnswer } from '../../../electron/contract.ts';
import { hostQueue } from '../../../renderer/state/host-queue.ts';

interface Asked {
  readonly revision: number;
  readonly edit: unknown;
  answer(ok?: boolean): void;
  fail(): void;
}

function queueAt(revision: number) {
  const asked: Asked[] = [];
  const heard: string[] = [];
  const bridge = {
    edit: (sent: { revision: number; edit: unknown }) =>
      new Promise<EditAnswer>((resolve, reject) => {
        asked.push({
          ...sent,
          answer: (ok = true) =>
            resolve(
              ok
                ? {
                    ok,
                    revision: sent.revision + 1,
                    inverse: { type: 'patch', patches: [] },
                    unsaved: true,
                  }
                : { ok, code: 'out-of-step', message: 'No.' },
            ),
          fail: () => reject(new Error('gone')),
        });
      }),
  } as unknown as Bridge;
  const queue = hostQueue(bridge, 'h', revision, {
    taken: (answer) => heard.push(`taken ${answer.revision}`),
    unanswered: () => heard.push('unanswered'),
    answersAgain: () => heard.push('again'),
    refused: ({ code }) => heard.push(`refused ${code}`),
  });
  return { queue, asked, heard };
}
const edit = (words: string) => words as unknown as Edit;
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);

describe('edits on their way', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('whose answer is long in coming are told of once, are not settled, and are taken when it comes', async () => {
    const { queue, asked, heard } = queueAt(4);
    queue.send(edit('one'));
    queue.send(edit('two'));
    const settled = queue.settled();
    await pass(4999);
    expect([heard, queue.waits(), queue.ahead()]).toEqual([[], true, 6]);
    await pass(1);
    expect(await settled).toBe(false);
    expect(await queue.settled()).toBe(false);
    await pass(60_000);
    expect([heard, asked.length]).toEqual([['unanswered'], 1]);
    asked[0]!.answer();
    await pass(0);
    expect(heard).toEqual(['unanswered', 'again', 'taken 5']);
    const then = queue.settled();
    asked[1]!.answer();
    expect(await then).toBe(true);
    expect(asked.map((each) => [each.revision, each.edit])).toEqual([
      [4, 'one'],
      [5, 'two'],
    ]);
    expect(queue.waits()).toBe(false);
  });

  it('that were answered in time are never told of', async () => {
    const { queue, asked, heard } = queueAt(0);
    queue.send(edit('one'));
    asked[0]!.answer();
    await pass(60_000);
    expect([heard, await queue.settled()]).toEqual([['taken 1'], true]);
  });

  it('that nobody took are sent again by themselves, from the first on, until they are', async () => {
    const { queue, asked, heard } = queueAt(0);
    queue.send(edit('one'));
    queue.send(edit('two'));
    asked[0]!.fail();
    expect(await queue.settled()).toBe(false);
    await pass(2000);
    asked[1]!.fail();
    await pass(2000);
    asked[2]!.answer();
    await pass(0);
    asked[3]!.answer();
    await pass(0);
    expect(asked.map((each) => each.edit)).toEqual(['one', 'one', 'one', 'two']);
    expect(heard).toEqual(['unanswered', 'again', 'taken 1', 'taken 2']);
    expect(await queue.settled()).toBe(true);
  });

  it('after one that was refused are not sent, and nothing is settled', async () => {
    const { queue, asked, heard } = queueAt(0);
    queue.send(edit('one'));
    queue.send(edit('two'));
    asked[0]!.answer(false);
    await pass(10_000);
    expect([heard, asked.length, await queue.settled()]).toEqual([['refused out-of-step'], 1, false]);
    queue.send(edit('three'));
    await pass(10_000);
    expect(asked).toHaveLength(1);
    expect(queue.waits()).toBe(true);
  });

  it('of a plan that is left are not sent again', async () => {
    const { queue, asked, heard } = queueAt(0);
    queue.send(edit('one'));
    asked[0]!.fail();
    await pass(0);
    queue.end();
    await pass(60_000);
    expect([heard, asked.length]).toEqual([['unanswered'], 1]);
  });
});
