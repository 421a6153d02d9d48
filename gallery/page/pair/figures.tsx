import type { AnyRankedPair } from '../../../core/gear/pair-ranking.js';
import { contactRows } from '../../../core/pair/contact-rows.js';
import { memberRows } from '../../../core/pair/member-rows.js';
import { playRows } from '../../../core/pair/play-rows.js';
import { oneRow, type PairRow, plain } from '../../../core/pair/rows.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { WithSymbols } from './symbols.js';

interface FiguresProps {
  readonly pair: AnyRankedPair;
  /** Of the pair's first and second member. */
  readonly names: readonly [string, string];
  readonly unit: LengthUnit;
}

/** No break between a number and its unit. */
const unbroken = (value: string): string => value.replace(/(\d) (?=\p{L})/gu, '$1\u00A0');

/** What is first wanted of a pair, then all that its check says. */
export function Figures({ pair, names, unit }: FiguresProps) {
  const play = playRows(pair, unit);
  const ratio = pair.ratio === null ? [] : [oneRow('ratio z_2 / z_1', plain(pair.ratio, 4))];
  return (
    <div class="pair-figures">
      <Table
        caption="Running"
        names={names}
        rows={[
          ...ratio,
          ...contactRows(pair, unit),
          { ...play.circumferential, label: `backlash, ${play.circumferential.label}` },
          { ...play.normal, label: `backlash, ${play.normal.label}` },
          play.room,
        ]}
      />
      <Table caption="Either member" names={names} rows={[...memberRows(pair, unit), play.thinning]} />
    </div>
  );
}

function Table({
  caption,
  names,
  rows,
}: {
  readonly caption: string;
  readonly names: readonly [string, string];
  readonly rows: readonly PairRow[];
}) {
  const both = rows.some((row) => row.values.length === 2);
  return (
    <table>
      <caption>{caption}</caption>
      {both && (
        <thead>
          <tr>
            <td />
            <th scope="col">{names[0]}</th>
            <th scope="col">{names[1]}</th>
          </tr>
        </thead>
      )}
      <tbody>
        {rows.map(({ label, values }) => (
          <tr key={label} class={label.startsWith(' ') ? 'is-part' : undefined}>
            <th scope="row">
              <WithSymbols text={label.trim()} />
            </th>
            {values.map((value, i) => (
              <td key={i} colSpan={both && values.length === 1 ? 2 : 1}>
                {unbroken(value)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
