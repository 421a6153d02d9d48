import { useEffect, useState } from 'preact/hooks';
import { pageShelf } from './page-shelf.js';

export type Theme = 'light' | 'dark';
const key = 'patternwright:theme';
const dark = '(prefers-color-scheme: dark)';

const chosen = (): Theme | null => {
  try {
    const kept = pageShelf()?.getItem(key);
    return kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
};

/** The theme chosen here, or the system's; and a way to choose the other. */
export function useTheme(): readonly [Theme, () => void] {
  const [choice, setChoice] = useState(chosen);
  const [system, setSystem] = useState<Theme>(() => (matchMedia(dark).matches ? 'dark' : 'light'));
  useEffect(() => {
    const query = matchMedia(dark);
    const listen = (): void => setSystem(query.matches ? 'dark' : 'light');
    query.addEventListener('change', listen);
    return () => query.removeEventListener('change', listen);
  }, []);
  const theme = choice ?? system;
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  const turn = (): void => {
    const other = theme === 'dark' ? 'light' : 'dark';
    setChoice(other);
    try {
      pageShelf()?.setItem(key, other);
    } catch {
      // It holds for this visit.
    }
  };
  return [theme, turn];
}
