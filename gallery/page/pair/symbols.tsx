import { SymbolText } from '../form/symbol.js';

/** `d_a`, and the letters that stand alone: a, b and d last in a row, x anywhere. */
const symbols = /(\p{L}_[\p{L}\p{N}]+|(?<= )[abd]$|(?<= )x(?=$| ))/u;

/** A row's words with the symbols in them set as symbols: `tip diameter d_a`. */
export function WithSymbols({ text }: { readonly text: string }) {
  return (
    <>{text.split(symbols).map((part, i) => (i % 2 === 1 ? <SymbolText key={i} symbol={part} /> : part))}</>
  );
}
