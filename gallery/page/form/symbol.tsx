import { readSymbol } from '../../../core/part/field-words.js';

/** A standard symbol as it is printed: m with n below, α, h with aP and a star. */
export function SymbolText({ symbol }: { readonly symbol: string }) {
  const { letter, subscript, mark } = readSymbol(symbol);
  return (
    <span class="field-symbol">
      <i>{letter}</i>
      {subscript !== '' && <sub>{subscript}</sub>}
      {mark !== '' && <sup>{mark}</sup>}
    </span>
  );
}
