import type { ComponentChildren } from 'preact';
import { useId, useRef, useState } from 'preact/hooks';

export interface Tab {
  readonly id: string;
  readonly name: string;
  /** Beside the name, with what it counts for screen readers. */
  readonly count?: { readonly text: string; readonly label: string };
  readonly content: () => ComponentChildren;
}

/** One of several panels, by the pattern of the WAI-ARIA practices: arrows, Home and End choose. */
export function Tabs({ tabs, label }: { readonly tabs: readonly Tab[]; readonly label: string }) {
  const base = useId();
  const [chosen, setChosen] = useState(tabs[0]?.id);
  const current = tabs.find((t) => t.id === chosen) ?? tabs[0];
  const strip = useRef<HTMLDivElement>(null);
  const choose = (index: number): void => {
    const tab = tabs[(index + tabs.length) % tabs.length];
    if (!tab) return;
    setChosen(tab.id);
    strip.current?.querySelector<HTMLButtonElement>(`[data-tab="${tab.id}"]`)?.focus();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const at = tabs.indexOf(current as Tab);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    choose(to);
  };
  if (!current) return null;
  return (
    <div class="tabs">
      <div role="tablist" aria-label={label} ref={strip} onKeyDown={onKeyDown}>
        {tabs.map((tab) => (
          <button
            key={tab.id}
            type="button"
            role="tab"
            id={`${base}-${tab.id}`}
            data-tab={tab.id}
            aria-selected={tab === current}
            aria-controls={`${base}-panel`}
            tabIndex={tab === current ? 0 : -1}
            onClick={() => setChosen(tab.id)}
          >
            {tab.name}
            {tab.count && (
              <span class="count">
                {' '}
                <span aria-hidden="true">{tab.count.text}</span>
                <span class="unseen">{tab.count.label}</span>
              </span>
            )}
          </button>
        ))}
      </div>
      <div role="tabpanel" id={`${base}-panel`} aria-labelledby={`${base}-${current.id}`}>
        {current.content()}
      </div>
    </div>
  );
}
