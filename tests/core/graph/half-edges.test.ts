// Half-edges: which way a walk turns at a node, and what is refused.

import { describe, expect, it } from 'vitest';
import { buildHalfEdges, type HalfEdges } from '../../../core/graph/index.ts';
import { levelOf, rectangle, ring } from './plans.ts';

function name(graph: HalfEdges, index: number): string {
  const { wall, side } = graph.edges[index]!;
  return `${wall}:${side}`;
}

/** The half-edge that follows `wall:side`. */
function after(graph: HalfEdges, key: string): string {
  const edge = graph.edges.find(({ index }) => name(graph, index) === key)!;
  return name(graph, edge.next);
}

describe('half-edges', () => {
  it('a level without walls has none', () => {
    const graph = buildHalfEdges(levelOf({ a: [0, 0] }, {}));
    expect(graph.edges).toEqual([]);
    expect(graph.loops).toEqual([]);
  });

  it('[WK2] a wall of no length is refused with its id', () => {
    const level = levelOf({ a: [0, 0], b: [0, 0] }, { w1: ['a', 'b'] });
    expect(() => buildHalfEdges(level)).toThrow(/wall w1 .*no length/);
  });

  it('[WK2] a wall from a node to itself is refused', () => {
    expect(() => buildHalfEdges(levelOf({ a: [0, 0] }, { w1: ['a', 'a'] }))).toThrow(/no length/);
  });

  it('[WK2] a missing node is refused, also one named like a property of every object', () => {
    expect(() => buildHalfEdges(levelOf({ a: [0, 0] }, { w1: ['a', 'constructor'] }))).toThrow(
      /node constructor, which does not exist/,
    );
    expect(() => buildHalfEdges(levelOf({ a: [0, 0] }, { w1: ['b', 'a'] }))).toThrow(/node b/);
  });

  it('[WK2] two walls that leave a node in one direction are refused', () => {
    const level = levelOf({ a: [0, 0], b: [1000, 0], c: [2000, 0] }, { w1: ['a', 'b'], w2: ['a', 'c'] });
    expect(() => buildHalfEdges(level)).toThrow(/w1 and w2|w2 and w1/);
  });

  it('ids like constructor and toString serve as well as any', () => {
    const nodes = Object.fromEntries([
      ['constructor', [0, 0] as const],
      ['toString', [1000, 0] as const],
      ['valueOf', [0, 1000] as const],
    ]);
    const walls = Object.fromEntries([
      ['hasOwnProperty', ['constructor', 'toString'] as const],
      ['w2', ['toString', 'valueOf'] as const],
      ['w3', ['valueOf', 'constructor'] as const],
    ]);
    const level = levelOf(nodes, walls);
    expect(buildHalfEdges(level).loops).toHaveLength(2);
  });

  it('[WK1] the right side of a wall runs from its first node to its second, the left side back', () => {
    const { edges } = buildHalfEdges(levelOf({ a: [0, 0], b: [1000, 0] }, { w1: ['a', 'b'] }));
    expect(edges.map(({ side, origin, target }) => [side, origin, target])).toEqual([
      ['right', 'a', 'b'],
      ['left', 'b', 'a'],
    ]);
  });

  it('[WK2] a lone wall is walked down one side and back up the other', () => {
    const graph = buildHalfEdges(levelOf({ a: [0, 0], b: [1000, 0] }, { w1: ['a', 'b'] }));
    expect(graph.loops).toEqual([[0, 1]]);
    expect(graph.edges.map(({ next, prev, twin }) => [next, prev, twin])).toEqual([
      [1, 1, 1],
      [0, 0, 0],
    ]);
  });

  it('[WK2] of four walls at a crossing the walk takes the next anticlockwise as seen: a right turn', () => {
    const graph = buildHalfEdges(
      levelOf(
        { m: [0, 0], north: [0, -1000], east: [1000, 0], south: [0, 1000], west: [-1000, 0] },
        { n: ['m', 'north'], e: ['m', 'east'], s: ['m', 'south'], w: ['m', 'west'] },
      ),
    );
    // Walking east on the west wall (towards m) the right hand is south.
    expect(after(graph, 'w:left')).toBe('s:right');
    expect(after(graph, 'n:left')).toBe('w:right');
    expect(after(graph, 'e:left')).toBe('n:right');
    expect(after(graph, 's:left')).toBe('e:right');
  });

  it('[WK2] walls that differ by one tick at 1 km are sorted rightly', () => {
    const f = 999_000;
    // Two nearly opposite walls and one between them, all within a few ticks of one line.
    const level = levelOf(
      { m: [-f, -f], a: [f, f], b: [f, f - 1 / 320], c: [-f, f] },
      { wa: ['m', 'a'], wb: ['m', 'b'], wc: ['m', 'c'] },
    );
    const graph = buildHalfEdges(level);
    // From c's wall (coming up), anticlockwise as seen from south: first a (lower on the sheet), then b.
    expect(after(graph, 'wc:left')).toBe('wa:right');
    expect(after(graph, 'wa:left')).toBe('wb:right');
    expect(after(graph, 'wb:left')).toBe('wc:right');
  });

  it('[WK1] a rectangle drawn clockwise has its room on the right sides, drawn anticlockwise on the left', () => {
    const nodes = rectangle('', 0, 0, 4000, 3000);
    const clockwise = buildHalfEdges(levelOf(nodes, ring(nodes)));
    expect(clockwise.loops.map((loop) => loop.map((edge) => name(clockwise, edge)))).toEqual([
      ['w1:right', 'w2:right', 'w3:right', 'w4:right'],
      ['w1:left', 'w4:left', 'w3:left', 'w2:left'],
    ]);
  });
});
