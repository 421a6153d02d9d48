import { expect, test } from 'vitest';
import { keepWork, keptWork, type Shelf } from '../../../gallery/page/job/keep.js';

function shelf(): Shelf & { readonly held: Map<string, string> } {
  const held = new Map<string, string>();
  return {
    held,
    getItem: (key) => held.get(key) ?? null,
    setItem: (key, value) => void held.set(key, value),
  };
}

const full: Shelf = {
  getItem: () => null,
  setItem: () => {
    throw new Error('QuotaExceededError');
  },
};

test('work is had back', () => {
  const it = shelf();
  const sources = {
    job: 'job: a\n',
    shop: { fileName: 'shop.yaml', text: 'title: b\n' },
    meshes: [{ name: 'a.stl', id: '1' }],
  };
  expect(keepWork(it, sources)).toBe(true);
  expect(keptWork(it)).toEqual(sources);
});

test('a full or forbidden storage is told, not thrown', () => {
  expect(keepWork(full, { job: 'job: a\n' })).toBe(false);
  expect(keepWork(undefined, { job: 'job: a\n' })).toBe(false);
  expect(keptWork(undefined)).toBeUndefined();
});

test('a job that would not be had back is not said to be kept', () => {
  expect(keepWork(shelf(), { job: 'x'.repeat(300_000) })).toBe(false);
});

test('what others put there is not taken for work', () => {
  for (const text of [
    '{',
    'null',
    '7',
    '[]',
    '{"form":1}',
    '{"form":2,"sources":{"job":"a"}}',
    '{"form":1,"sources":{"job":7}}',
    '{"form":1,"sources":{"job":"a","shop":"b"}}',
    '{"form":1,"sources":{"job":"a","meshes":{}}}',
    '{"form":1,"sources":{"job":"a","meshes":[null]}}',
    '{"form":1,"sources":{"job":"a","meshes":[{"name":"a.stl","id":7}]}}',
    '{"form":1,"sources":null}',
    JSON.stringify({ form: 1, sources: { job: 'x'.repeat(300_000) } }),
  ]) {
    const it = shelf();
    it.held.set('patternwright:work', text);
    expect(keptWork(it), text.slice(0, 60)).toBeUndefined();
  }
});
