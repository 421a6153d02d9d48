import type { Theme } from './theme.js';

export interface HeadProps {
  readonly theme: Theme;
  readonly onTheme: () => void;
  readonly onBench: boolean;
}

/** Name, way back to the wall, light or dark. */
export function Head({ theme, onTheme, onBench }: HeadProps) {
  return (
    <header class="head">
      <button type="button" class="skip" onClick={skip}>
        To the work
      </button>
      <p class="name">
        <a href="#wall">Patternwright</a>
      </p>
      <nav aria-label="Places">
        <a href="#wall" aria-current={onBench ? undefined : 'page'}>
          Wall
        </a>
        <a href="#bench" aria-current={onBench ? 'page' : undefined}>
          Bench
        </a>
      </nav>
      <button type="button" class="quiet" onClick={onTheme}>
        {theme === 'dark' ? 'Light' : 'Dark'}
      </button>
    </header>
  );
}

/** The fragment of the address is the page's own; the focus goes there by hand. */
function skip(): void {
  const main = document.getElementById('main');
  main?.setAttribute('tabindex', '-1');
  main?.focus();
}
