import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type CacheSearch, findCache } from '../../../cli/store/find-cache.js';

const home = resolve('/home/rope');
const at = (search: Partial<CacheSearch>): string | undefined =>
  findCache({ cwd: resolve('/work'), env: {}, platform: 'linux', home, ...search });

describe('where parts are kept', () => {
  test('the option before the environment before the user’s caches', () => {
    const env = { PATTERNWRIGHT_CACHE: '/disk/parts', XDG_CACHE_HOME: '/disk/xdg' };
    expect(at({ env, option: 'here' })).toBe(resolve('/work/here'));
    expect(at({ env })).toBe(resolve('/disk/parts'));
    expect(at({ env: { ...env, PATTERNWRIGHT_CACHE: '' } })).toBe(join('/disk/xdg', 'patternwright'));
    expect(at({})).toBe(join(home, '.cache', 'patternwright'));
  });

  test('none is none, and can be undone by the option', () => {
    const env = { PATTERNWRIGHT_CACHE: 'none' };
    expect(at({ option: 'none' })).toBeUndefined();
    expect(at({ env })).toBeUndefined();
    expect(at({ env, option: './none' })).toBe(resolve('/work/none'));
  });

  test('each system’s usual place; a path that is not absolute is not one', () => {
    expect(at({ env: { XDG_CACHE_HOME: 'relative' } })).toBe(join(home, '.cache', 'patternwright'));
    expect(at({ platform: 'darwin' })).toBe(join(home, 'Library', 'Caches', 'patternwright'));
    expect(at({ platform: 'win32' })).toBe(join(home, 'AppData', 'Local', 'patternwright', 'cache'));
    expect(at({ platform: 'win32', env: { LOCALAPPDATA: '/l' } })).toBe(join('/l', 'patternwright', 'cache'));
    expect(at({ home: '' })).toBeUndefined();
  });
});
