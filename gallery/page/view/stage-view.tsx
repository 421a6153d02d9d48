import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { SectionPlane, ViewContent } from './content.js';
import { keyHelp } from './keys.js';
import type { Theme } from './look.js';
import { NoPictureError } from './room.js';
import { Stage } from './stage.js';
import './view.css';

export interface StageViewProps {
  readonly content: ViewContent;
  readonly section: SectionPlane | null;
  readonly showDimensions: boolean;
  readonly theme: Theme;
  /** The view's name for those who do not see it. */
  readonly label: string;
  /** Pulled by its knob in the view. */
  readonly onSection?: (section: SectionPlane) => void;
  /** A frame with new content is drawn; `performance.now()`. */
  readonly onPainted?: (now: number) => void;
  /** The browser has no WebGL 2: the page may show the preview picture. Said once. */
  readonly onUnavailable?: () => void;
  /** Given the stage as soon as it stands, null when it goes: for buttons beside it and for what moves. */
  readonly stageRef?: (stage: Stage | null) => void;
}

/** The piece in three dimensions, as large as the element it stands in. */
export function StageView(props: StageViewProps) {
  const { content, section, showDimensions, theme, label } = props;
  const host = useRef<HTMLDivElement>(null);
  const stage = useRef<Stage | null>(null);
  const latest = useRef(props);
  latest.current = props;
  const [trouble, setTrouble] = useState<'none' | 'lost' | 'unavailable'>('none');
  const helpId = useId();

  useLayoutEffect(() => {
    if (!host.current) return;
    try {
      stage.current = new Stage(host.current, {
        onSection: (s) => latest.current.onSection?.(s),
        onPainted: (now) => latest.current.onPainted?.(now),
        onLost: (lost) => setTrouble(lost ? 'lost' : 'none'),
      });
    } catch (error) {
      if (!(error instanceof NoPictureError)) throw error;
      setTrouble('unavailable');
      latest.current.onUnavailable?.();
      return;
    }
    latest.current.stageRef?.(stage.current);
    return () => {
      latest.current.stageRef?.(null);
      stage.current?.dispose();
      stage.current = null;
    };
  }, []);

  useLayoutEffect(() => stage.current?.setTheme(theme), [theme]);
  useLayoutEffect(() => stage.current?.setDimensions(showDimensions), [showDimensions]);
  useLayoutEffect(() => stage.current?.setSection(section), [section]);
  useLayoutEffect(() => stage.current?.show(content), [content]);

  return (
    <div
      class="stage"
      ref={host}
      role="application"
      aria-roledescription="3D view"
      aria-label={label}
      aria-describedby={helpId}
      data-theme={theme}
    >
      <p class="stage-help" id={helpId}>
        {keyHelp}
      </p>
      {trouble === 'lost' && (
        <p class="stage-note" role="status">
          The graphics card took the picture away. It comes back by itself as soon as the card is free.
        </p>
      )}
      {trouble === 'unavailable' && (
        <p class="stage-note" role="status">
          This browser cannot draw in three dimensions. All numbers and files are made all the same.
        </p>
      )}
    </div>
  );
}
