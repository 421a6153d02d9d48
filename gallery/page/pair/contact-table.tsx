import { contactsAt, teethInContact } from '../../../core/gear/running/contacts.js';
import type { RunningPair } from '../../../core/gear/running/running-pair.js';
import type { FlankSide } from '../../../core/gear/running/stand.js';
import { plain } from '../../../core/pair/rows.js';
import { SymbolText } from '../form/symbol.js';

interface ContactTableProps {
  readonly pair: RunningPair;
  readonly angle: number;
  readonly z: number;
  readonly side: FlankSide;
  readonly names: readonly [string, string];
  readonly length: (mm: number) => string;
}

/** Rows are kept free for as many contacts as there ever are, so that nothing jumps as they come and go. */
const rowsFor = ({ path, basePitch }: RunningPair): number => Math.ceil((path.to - path.from) / basePitch);

const sliding = (value: number): string => (Number.isFinite(value) ? plain2(value) : 'no limit');
const plain2 = (value: number): string => value.toFixed(2).replace('-', '−');

/** The places where flanks touch in the section, at this moment. */
export function ContactTable({ pair, angle, z, side, names, length }: ContactTableProps) {
  const contacts = contactsAt(pair, angle, z, side);
  const straight = pair.mesh.gear.helixAngle === 0;
  const rows = Array.from({ length: Math.max(rowsFor(pair), contacts.length) }, (_, i) => contacts[i]);
  return (
    <div class="contact-table">
      <p>
        {side === 'midway'
          ? 'The teeth stand midway: nothing touches.'
          : `${pairsOf(contacts.length)} in contact${straight ? '' : ` in this section, ${teethInContact(pair, angle, side).length} over the face`}.`}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Tooth of {names[0]}</th>
            <th scope="col">
              <SymbolText symbol="rho_1" />
            </th>
            <th scope="col">Sliding, {names[0]}</th>
            <th scope="col">Sliding, {names[1]}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((contact, i) => (
            <tr key={i}>
              <td>{contact ? plain(contact.tooth + 1, 0) : '–'}</td>
              <td>{contact ? length(contact.curvature) : '–'}</td>
              <td>{contact ? sliding(contact.sliding[0]) : '–'}</td>
              <td>{contact ? sliding(contact.sliding[1]) : '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const pairsOf = (count: number): string => (count === 1 ? 'One pair of teeth' : `${count} pairs of teeth`);
