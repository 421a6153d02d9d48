import { flasks as usualFlasks } from '../../../core/foundry/flasks.js';
import { flaskFields } from '../../../core/job/job-schema.js';
import { furnaceFields, kilnFields, mixingFields, shopFields } from '../../../core/job/shop-schema.js';
import type { View } from '../../../core/report/format.js';
import type { Bench } from '../bench/bench.js';
import type { Problem } from '../job/problem.js';
import { SchemaForm } from './schema-form.js';

export interface ShopPanelProps {
  readonly bench: Bench;
  readonly raw: Readonly<Record<string, unknown>>;
  /** The name of the profile that was opened beside the job, where one was. */
  readonly profile: string | undefined;
  readonly view: View;
  readonly problems: readonly Problem[];
}

/** What the shop has: flasks, kiln, furnace, how it mixes. */
export function ShopPanel({ bench, raw, profile, view, problems }: ShopPanelProps) {
  const common = { bench, view, problems };
  const group = (key: string): unknown =>
    typeof raw.shop === 'object' && raw.shop !== null
      ? (raw.shop as Record<string, unknown>)[key]
      : undefined;
  // A job that names a profile has its shop there.
  const isOwn = raw.shop === undefined || typeof raw.shop === 'object';
  return (
    <>
      <h2>Flasks</h2>
      <Flasks bench={bench} raw={raw.flasks} view={view} problems={problems} />
      <h2>The shop</h2>
      {profile !== undefined && (
        <p>
          From {profile}, opened beside the job. What is set here comes before it{isOwn ? ' as a whole' : ''}.
        </p>
      )}
      {isOwn ? (
        <>
          <SchemaForm {...common} schema={kilnFields} path={['shop', 'kiln']} raw={group('kiln')} />
          <SchemaForm {...common} schema={furnaceFields} path={['shop', 'furnace']} raw={group('furnace')} />
          <SchemaForm {...common} schema={mixingFields} path={['shop', 'mixing']} raw={group('mixing')} />
          <SchemaForm {...common} schema={shopFields} path={['shop']} raw={raw.shop} />
        </>
      ) : (
        <p>The job names a shop profile, {String(raw.shop)}: what the shop has stands there.</p>
      )}
      <p class="soft">
        Prices, crucibles, metals on the shelf and alloys of the shop’s own are written in the job’s text, or
        come with a shop profile.
      </p>
    </>
  );
}

/** A tin can, to begin with. */
const firstFlask = { diameter: '99mm', height: '140mm', wall: '0.3mm', base: 'closed' } as const;

function Flasks({
  bench,
  raw,
  view,
  problems,
}: {
  readonly bench: Bench;
  readonly raw: unknown;
  readonly view: View;
  readonly problems: readonly Problem[];
}) {
  const own: readonly unknown[] = Array.isArray(raw) ? raw : [];
  const add = (): void => {
    const name = `flask ${own.length + 1}`;
    const flask = { name, ...firstFlask };
    if (own.length === 0) bench.edit([{ path: ['flasks'], value: [flask] }]);
    else bench.edit([{ path: ['flasks', String(own.length)], value: flask }]);
  };
  const remove = (index: number): void =>
    bench.edit([{ path: own.length === 1 ? ['flasks'] : ['flasks', String(index)], value: undefined }]);
  return (
    <>
      <p class="soft">
        {own.length === 0
          ? `None of your own: the smallest of ${usualFlasks.length} usual ones that holds a pattern is taken.`
          : 'The smallest of these that holds a pattern is taken; the usual ones no longer are.'}
      </p>
      {own.map((flask, i) => {
        const group = flask as Readonly<Record<string, unknown>> | null;
        const name = String(group?.name ?? i + 1);
        return (
          <section key={i} class="flask" aria-label={`Flask: ${name}`}>
            <p class="row">
              <strong>{name}</strong>
              <button type="button" class="quiet" onClick={() => remove(i)}>
                Take out {name}
              </button>
            </p>
            <SchemaForm
              bench={bench}
              view={view}
              problems={problems}
              schema={flaskFields}
              path={['flasks', String(i)]}
              raw={group}
            />
          </section>
        );
      })}
      <p>
        <button type="button" onClick={add}>
          Add a flask of your own
        </button>
      </p>
    </>
  );
}
