import type { FunctionComponent } from 'preact';
import { useCallback, useEffect, useState } from 'preact/hooks';
import type { BenchPlaceProps } from './bench/bench-place.js';
import { Foot } from './foot.js';
import { Head } from './head.js';
import { keptWork } from './job/keep.js';
import { pageMeshes } from './mesh/open-meshes.js';
import { pageShelf } from './page-shelf.js';
import { benchFragment, type Route, routeOf } from './route.js';
import { useTheme } from './theme.js';
import { Wall } from './wall/wall.js';
import type { Sources } from './work/protocol.js';

/** What the bench is to begin with; another number begins another job. */
interface Start {
  readonly number: number;
  readonly sources: Sources;
}

const nowAt = (): Route => routeOf(location.hash);

/** The page: the wall of pieces, and the bench where one is worked on. */
export function App() {
  const [theme, turnTheme] = useTheme();
  const [route, setRoute] = useState<Route>(nowAt);
  const [start, setStart] = useState<Start | undefined>(() => startAt(nowAt()));
  const [BenchPlace, setBenchPlace] = useState<FunctionComponent<BenchPlaceProps>>();

  useEffect(() => {
    const listen = (): void => {
      const next = nowAt();
      setRoute(next);
      setStart((now) => (next.place === 'link' ? (startAt(next) ?? now) : (now ?? startAt(next))));
    };
    addEventListener('hashchange', listen);
    return () => removeEventListener('hashchange', listen);
  }, []);

  const onBench =
    start !== undefined && route.place !== 'wall' && !(route.place === 'link' && !route.link.ok);
  // The bench is most of the page's weight: the wall is there before it.
  useEffect(() => {
    if (onBench && !BenchPlace)
      // With it come the mesh files of the work that was kept.
      Promise.all([import('./bench/bench-place.js'), recallKept()]).then(([module]) =>
        setBenchPlace(() => module.BenchPlace),
      );
  }, [onBench, BenchPlace]);
  // The link's job is now on the bench, and kept: a reload is to find it as it has become.
  useEffect(() => {
    if (route.place === 'link' && route.link.ok) {
      history.replaceState(null, '', benchFragment);
      setRoute({ place: 'bench' });
    }
  }, [route]);

  const begin = useCallback((sources: Sources): void => {
    setStart((now) => ({ number: (now?.number ?? 0) + 1, sources }));
    location.hash = benchFragment;
  }, []);

  return (
    <>
      <Head theme={theme} onTheme={turnTheme} onBench={onBench} />
      <main id="main">
        {start !== undefined && BenchPlace && (
          // It stays as it is while the reader is at the wall.
          <div hidden={!onBench}>
            <BenchPlace key={start.number} sources={start.sources} theme={theme} here={onBench} />
          </div>
        )}
        {onBench && !BenchPlace && (
          <p class="waiting" role="status">
            Getting the bench ready …
          </p>
        )}
        {!onBench && (
          <Wall
            onBegin={begin}
            problem={route.place === 'link' && !route.link.ok ? route.link : null}
            kept={start !== undefined || keptWork(pageShelf()) !== undefined}
          />
        )}
      </main>
      <Foot />
    </>
  );
}

const recallKept = (): Promise<void> => pageMeshes.recall(keptWork(pageShelf())?.meshes ?? []);

/** From a link its job; at the bench what was kept; at the wall nothing yet. */
function startAt(route: Route): Start | undefined {
  if (route.place === 'wall') return undefined;
  if (route.place === 'link')
    return route.link.ok ? { number: Date.now(), sources: { job: route.link.text } } : undefined;
  const kept = keptWork(pageShelf());
  return kept && { number: 0, sources: kept };
}
